package org.fairtray.sizing;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;

/**
 * The test of a term in its stratum, as far as the layout alone decides it. The trays that are <i>raised</i> are those that
 * get the last level but the control's of every factor of the term: of a factor all that got it, of an interaction one
 * combination.
 *
 * @param term a factor or an interaction
 * @param stratum the name of the stratum in which it is tested
 * @param unit what gets a factor's levels one by one: a place level, a kind of batch, or the tray; of an interaction, the
 *     stratum
 * @param unitsPerLevel how many such units a level has, on average; of an interaction, a combination
 * @param df degrees of freedom of the term
 * @param dimension of the stratum, before anything is fitted
 * @param residualDf what is left of it, 1 or more
 * @param trays of the layout
 * @param raised the share of the trays that are raised
 * @param spread the sum of squares of the term in the stratum if raised trays have 1 and all others 0
 * @param comparisons levels held against the control
 * @param contrast the variance of the difference of two levels' means if trays had variance 1
 * @param traysInOne for each place level whose units lie in one unit of the stratum: the mean number of trays in one
 */
public record StratumTest(
        Term term,
        String stratum,
        String unit,
        double unitsPerLevel,
        int df,
        int dimension,
        int residualDf,
        int trays,
        double raised,
        double spread,
        int comparisons,
        double contrast,
        Map<String, Double> traysInOne) {

    public StratumTest {
        traysInOne = Collections.unmodifiableMap(new LinkedHashMap<>(traysInOne));
    }

    /** The test of a term; empty where no stratum can test it, or no tray is raised. */
    public static Optional<StratumTest> of(Structure structure, Term term) {
        return structure.testedIn(term).flatMap(s -> in(structure, term, s));
    }

    private static Optional<StratumTest> in(Structure structure, Term term, int stratum) {
        double[] raised = raised(structure, term);
        double share =
                IntStream.range(0, raised.length).mapToDouble(i -> raised[i]).sum() / raised.length;
        int number = structure.terms().indexOf(term);
        var row = structure.decomposition().analyse(raised).get(stratum).rows().stream()
                .filter(r -> r.part().term() == number)
                .findFirst()
                .orElseThrow();
        if (share == 0 || row.sumOfSquares() <= 0) {
            return Optional.empty();
        }
        boolean main = term.isMain();
        var factor = structure.trial().factor(term.factors().get(0));
        String unit = main ? unit(structure, factor) : structure.strataNames().get(stratum);
        return Optional.of(new StratumTest(
                term,
                structure.strataNames().get(stratum),
                unit,
                main ? unitsPerLevel(structure, factor, unit) : share * raised.length,
                row.part().df(),
                structure.strata().dimension(stratum),
                structure.decomposition().residualDf(stratum),
                raised.length,
                share,
                row.sumOfSquares(),
                factor.levels().size() - 1,
                main ? contrast(structure, factor) / row.part().efficiency() : 0,
                traysInOne(structure, stratum)));
    }

    private static double[] raised(Structure structure, Term term) {
        var trial = structure.trial();
        return structure.trays().stream()
                .mapToDouble(tray -> term.factors().stream().allMatch(f -> {
                            var levels = trial.levelsFromControl(trial.factor(f));
                            return levels.get(levels.size() - 1)
                                    .equals(tray.treatment().level(f));
                        })
                        ? 1
                        : 0)
                .toArray();
    }

    private static String unit(Structure structure, Factor factor) {
        return structure
                .batchesOf(factor.name())
                .map(Batch::name)
                .orElseGet(() -> structure.trial().appliedLevel(factor));
    }

    private static double unitsPerLevel(Structure structure, Factor factor, String unit) {
        return structure
                .batchesOf(factor.name())
                .map(b -> (double) b.count())
                .orElseGet(() -> (double) structure.units(unit).groups()
                        / factor.levels().size());
    }

    /** 1/n of the control and 1/n of another level, on average over the others. */
    private static double contrast(Structure structure, Factor factor) {
        var levels = structure.trial().levelsFromControl(factor);
        double others = levels.stream()
                .skip(1)
                .mapToDouble(l -> 1.0 / trays(structure, factor, l))
                .filter(Double::isFinite)
                .average()
                .orElse(1);
        long control = trays(structure, factor, levels.get(0));
        return control == 0 ? 2 * others : others + 1.0 / control;
    }

    private static long trays(Structure structure, Factor factor, String level) {
        return structure.trays().stream()
                .filter(t -> level.equals(t.treatment().level(factor.name())))
                .count();
    }

    private static Map<String, Double> traysInOne(Structure structure, int stratum) {
        var inOne = new LinkedHashMap<String, Double>();
        var stratumUnits = structure.strata().grouping(stratum);
        for (String level : structure.trial().place().names()) {
            var units = structure.units(level);
            if (units.finerThan(stratumUnits)) {
                inOne.put(level, units.sizeSeenFromInside());
            }
        }
        inOne.put(Place.TRAY, 1.0);
        return inOne;
    }

    /** The degrees of freedom for error of an option; 0 or less where the layout is repeated too seldom to have any. */
    public double errorDf(Option option) {
        return option.times() * dimension - (dimension - residualDf);
    }

    /** Whether single trays get the levels. */
    public boolean onTrays() {
        return unit.equals(Place.TRAY);
    }
}
