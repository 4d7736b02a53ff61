package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.strata.Decomposition;
import org.fairtray.trial.Place;

/** The analysis of variance: each term in the strata that hold information on it. */
public final class AnovaPart {
    /** A residual below this share of the sum of squared values is their rounding, and so would a ratio to it be. */
    private static final double ROUNDING = 1e-29;

    private final Structure structure;
    private final List<Decomposition.Table> tables;
    private final double wholeSumOfSquares;
    private final double[] values;
    private Optional<PlaceModel> placeOnceAsked;

    private AnovaPart(Structure structure, double[] values) {
        this.structure = structure;
        this.values = values;
        this.tables = structure.decomposition().analyse(values);
        double whole = 0;
        for (double value : values) {
            whole += value * value;
        }
        this.wholeSumOfSquares = whole;
    }

    /** Analyses the rates of one count for each tray, on the plan's scale. */
    public static AnovaPart ofCounts(Structure structure, List<Count> counts) {
        var scale = structure.trial().choices().scale();
        return of(
                structure,
                counts.stream()
                        .mapToDouble(c -> scale.of((double) c.successes(), (double) c.trials()))
                        .toArray());
    }

    /** Analyses one value for each tray of a structure. */
    public static AnovaPart of(Structure structure, double[] values) {
        return new AnovaPart(structure, values);
    }

    /** The model that puts the strata together, where the layout needs one; it takes longer than all the rest. */
    private Optional<PlaceModel> place() {
        if (placeOnceAsked == null) {
            placeOnceAsked = structure.isSpread() ? PlaceModel.of(Cells.of(structure), values) : Optional.empty();
        }
        return placeOnceAsked;
    }

    /** The residual mean square of a stratum; null where nothing is left. */
    public Double residualMeanSquare(int stratum) {
        var table = tables.get(stratum);
        return table.residualDf() == 0 ? null : table.residualSumOfSquares() / table.residualDf();
    }

    /** The mean square of a term in a stratum; null where it has none there. */
    public Double meanSquare(Term term, int stratum) {
        return tables.get(stratum).rows().stream()
                .filter(r -> structure.terms().get(r.part().term()).equals(term))
                .map(r -> r.sumOfSquares() / r.part().df())
                .findFirst()
                .orElse(null);
    }

    /** The F of a term in a stratum; empty where it has none there, or nothing but rounding to be tested against. */
    public Optional<Double> ratio(Term term, int stratum) {
        Double meanSquare = meanSquare(term, stratum);
        return meanSquare == null || !isTestable(tables.get(stratum))
                ? Optional.empty()
                : Optional.of(meanSquare / residualMeanSquare(stratum));
    }

    private boolean isTestable(Decomposition.Table table) {
        return table.residualDf() > 0 && table.residualSumOfSquares() > ROUNDING * wholeSumOfSquares;
    }

    /** The same as findings. */
    public Findings.Anova findings(String scale) {
        var decomposition = structure.decomposition();
        var strata = new ArrayList<Findings.Stratum>();
        for (int s = 0; s < tables.size(); s++) {
            var stratum = stratum(s);
            if (!stratum.terms().isEmpty() || stratum.residual() != null) {
                strata.add(stratum);
            }
        }
        boolean leastSquares = !decomposition.isOrthogonal() && tables.size() == 1;
        boolean mixed = leastSquares || place().isPresent();
        return new Findings.Anova(
                scale,
                mixed ? "mixed" : "strata",
                decomposition.isOrthogonal(),
                strata,
                leastSquares
                        ? strata.stream().flatMap(s -> s.terms().stream()).toList()
                        : place().map(this::terms).orElse(null),
                leastSquares
                        ? Collections.singletonMap(Place.TRAY, residualMeanSquare(0))
                        : place().map(PlaceModel::variances).orElse(null),
                notes());
    }

    private List<Findings.AnovaTerm> terms(PlaceModel combined) {
        return structure.terms().stream()
                .flatMap(t -> combined.test(t).stream()
                        .map(f -> new Findings.AnovaTerm(
                                t.name(), t.factors(), f.df(), null, null, f.f(), f.denominatorDf(), f.p(), null)))
                .toList();
    }

    /** The residual mean squares of all strata; 0 where there is but rounding, null where nothing is left. */
    public List<Double> residualMeanSquares() {
        return IntStream.range(0, tables.size())
                .mapToObj(s -> tables.get(s).residualDf() == 0 || isTestable(tables.get(s))
                        ? residualMeanSquare(s)
                        : Double.valueOf(0))
                .collect(Collectors.toList());
    }

    /** The mean square of a term in the stratum that it is tested in. */
    Optional<StratumYardstick.MeanChange> meanChange(Term term) {
        return structure
                .testedIn(term)
                .flatMap(s -> tables.get(s).rows().stream()
                        .filter(r -> structure.terms().get(r.part().term()).equals(term))
                        .map(r -> new StratumYardstick.MeanChange(
                                r.part().df(), r.sumOfSquares() / r.part().df()))
                        .findFirst());
    }

    /** The model that puts the strata together, with tests as verdicts need them; where the layout needs one. */
    Optional<PlaceModel> placeForVerdicts() {
        return place().map(PlaceModel::forVerdicts);
    }

    private Findings.Stratum stratum(int s) {
        var table = tables.get(s);
        var residual = table.residualDf() == 0
                ? null
                : new Findings.Residual(table.residualDf(), table.residualSumOfSquares(), residualMeanSquare(s));
        return new Findings.Stratum(
                structure.strataNames().get(s),
                table.rows().stream().map(r -> term(r, residual)).toList(),
                residual);
    }

    private Findings.AnovaTerm term(Decomposition.Row row, Findings.Residual residual) {
        var term = structure.terms().get(row.part().term());
        int df = row.part().df();
        double meanSquare = row.sumOfSquares() / df;
        boolean testable = isTestable(tables.get(row.part().stratum()));
        Double f = testable ? Double.valueOf(meanSquare / residual.meanSquare()) : null;
        return new Findings.AnovaTerm(
                term.name(),
                term.factors(),
                df,
                row.sumOfSquares(),
                meanSquare,
                f,
                testable ? Double.valueOf(residual.df()) : null,
                testable ? Double.valueOf(Tail.f(f, df, residual.df())) : null,
                row.part().efficiency());
    }

    private List<String> notes() {
        var notes = new ArrayList<>(structure.confusions());
        var decomposition = structure.decomposition();
        for (int t = 0; t < structure.terms().size(); t++) {
            var term = structure.terms().get(t);
            aliasNote(term, decomposition.nominalDf(t), decomposition.estimableDf(t))
                    .ifPresent(notes::add);
            confoundedNote(term).ifPresent(notes::add);
        }
        for (int s = 0; s < tables.size(); s++) {
            if (tables.get(s).residualDf() == 0 && !tables.get(s).rows().isEmpty()) {
                notes.add("Between units of " + structure.strataNames().get(s)
                        + " no degrees of freedom are left for error, so nothing is tested there.");
            }
        }
        if (tables.size() > 1 && !decomposition.isOrthogonal()) {
            notes.add("The layout is not orthogonal: each term is shown in every stratum that holds information on it,"
                    + " beside the terms that don't contain it."
                    + (place().isPresent()
                            ? " The test of a term puts the strata together (REML, Kenward and Roger)."
                            : " The strata could not be put together into one test."));
        }
        place().map(PlaceModel::atZero)
                .filter(z -> !z.isEmpty())
                .ifPresent(z -> notes.add("No variance was found between units of " + String.join(" and ", z)
                        + " beyond that between trays; it counts as 0."));
        return notes;
    }

    private Optional<String> aliasNote(Term term, int nominal, int estimable) {
        if (estimable == nominal) {
            return Optional.empty();
        }
        return Optional.of(
                estimable == 0
                        ? term.name() + " can't be estimated: it can't be told apart from other terms in these trays."
                        : "Of the " + nominal + " degrees of freedom of " + term.name() + " only " + estimable
                                + " can be estimated, because some combinations have no tray.");
    }

    private Optional<String> confoundedNote(Term term) {
        var partly = structure.parts(term).stream()
                .filter(p -> p.efficiency() < 1 - 1e-7)
                .map(p -> String.format(
                        Locale.ROOT,
                        "%.3f between units of %s",
                        p.efficiency(),
                        structure.strataNames().get(p.stratum())))
                .toList();
        return partly.isEmpty()
                ? Optional.empty()
                : Optional.of("Information on " + term.name() + " is divided: its efficiency factor is "
                        + String.join(", ", partly) + ".");
    }
}
