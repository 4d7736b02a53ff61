package org.fairtray.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.strata.Decomposition;
import org.fairtray.statistics.strata.ModelTerm;
import org.fairtray.statistics.strata.Strata;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Some trays of a trial seen as a design: the strata in which they can differ by place, and how the terms of the analysis
 * fall into them. It is worked out from where the trays stand and what they get, whoever laid them out.
 */
public final class Structure {
    private static final double MOST_OF_ALL = 0.75;

    private final Trial trial;
    private final List<Tray> trays;
    private final List<String> strataNames;
    private final Strata strata;
    private final List<Term> terms;
    private final Decomposition decomposition;
    private final Map<String, Grouping> placeUnits;
    private final List<String> fixedBlocks;

    private Structure(Trial trial, List<Tray> trays, List<Level> levels) {
        this.trial = trial;
        this.trays = trays;
        this.strataNames = levels.stream().map(Level::name).toList();
        this.strata = Strata.of(levels.stream().map(Level::units).toList());
        this.placeUnits = trial.place().names().stream()
                .collect(Collectors.toUnmodifiableMap(l -> l, l -> units(trial, trays, l)));
        this.fixedBlocks = blocksOutsideFactors();
        int order = Math.min(trial.factors().size(), trial.choices().interactions());
        var fitted = fitted(order);
        while (order > 1 && hidesMainEffects(fitted)) {
            order--;
            fitted = fitted(order);
        }
        this.terms = fitted.terms;
        this.decomposition = fitted.decomposition;
    }

    private record Fitted(List<Term> terms, Decomposition decomposition) {}

    private Fitted fitted(int order) {
        var some = Term.of(trial, order);
        return new Fitted(
                some,
                Decomposition.of(strata, some.stream().map(this::modelTerm).toList()));
    }

    /** Whether interactions leave less of a main effect than the other main effects do. */
    private boolean hidesMainEffects(Fitted fitted) {
        boolean whole = mainEffects(fitted).allMatch(t -> {
            var levels = Grouping.by(trays.stream()
                    .map(tray -> tray.treatment().only(fitted.terms.get(t).factors()))
                    .toList());
            return fitted.decomposition.estimableDf(t) >= levels.groups() - 1;
        });
        if (whole) {
            return false;
        }
        var alone = fitted(1);
        return mainEffects(fitted)
                .anyMatch(t -> fitted.decomposition.estimableDf(t) < alone.decomposition.estimableDf(t));
    }

    private static IntStream mainEffects(Fitted fitted) {
        return IntStream.range(0, fitted.terms.size())
                .filter(t -> fitted.terms.get(t).isMain());
    }

    private record Level(String name, Grouping units) {}

    /**
     * The structure of some trays.
     *
     * @param trays one or more of the trial's
     * @throws IllegalArgumentException if there is no tray
     */
    public static Structure of(Trial trial, List<Tray> trays) {
        if (trays.isEmpty()) {
            throw new IllegalArgumentException("no trays: expected at least one");
        }
        return new Structure(trial, List.copyOf(trays), levels(trial, trays));
    }

    /**
     * The place levels and batches with more than one unit and fewer units than trays, and at last the tray. A level
     * that trays move through is none: no tray belongs to one of its units.
     */
    private static List<Level> levels(Trial trial, List<Tray> trays) {
        var levels = new ArrayList<Level>();
        for (String name :
                trial.place().names().stream().filter(l -> !trial.moves(l)).toList()) {
            add(levels, levels.size(), new Level(name, units(trial, trays, name)));
        }
        for (Batch batch : trial.batches()) {
            var level = new Level(batch.name(), units(trays, batch));
            int inside = IntStream.range(0, levels.size())
                    .filter(i -> levels.get(i).units.finerThan(level.units))
                    .findFirst()
                    .orElse(levels.size());
            add(levels, inside, level);
        }
        levels.add(new Level(Place.TRAY, units(trial, trays, Place.TRAY)));
        return levels;
    }

    private static void add(List<Level> levels, int at, Level level) {
        int units = level.units.groups();
        boolean same = levels.stream().anyMatch(l -> l.units.groups() == units && l.units.finerThan(level.units));
        if (units > 1 && units < level.units.size() && !same) {
            levels.add(at, level);
        }
    }

    private static Grouping units(Trial trial, List<Tray> trays, String level) {
        return Grouping.by(
                trays.stream().map(t -> trial.place().unit(level, t.stand())).toList());
    }

    private static Grouping units(List<Tray> trays, Batch batch) {
        return Grouping.by(trays.stream()
                .map(t -> List.of(t.treatment().level(batch.of()), t.batches().get(batch.name())))
                .toList());
    }

    private ModelTerm modelTerm(Term term) {
        var cells = Grouping.by(
                trays.stream().map(t -> t.treatment().only(term.factors())).toList());
        int df = term.factors().stream()
                .mapToInt(f -> trial.factor(f).levels().size() - 1)
                .reduce(1, Math::multiplyExact);
        return new ModelTerm(Set.copyOf(term.factors()), cells, df);
    }

    /** The trial. */
    public Trial trial() {
        return trial;
    }

    /** The trays, in the order of all arrays. */
    public List<Tray> trays() {
        return trays;
    }

    /**
     * The terms of the analysis: those that the plan asks for, without interactions of so many factors that main effects
     * can't be told apart from them.
     */
    public List<Term> terms() {
        return terms;
    }

    /** The most factors of any term that is fitted. */
    public int highestOrder() {
        return terms.get(terms.size() - 1).factors().size();
    }

    /** Whether interactions that the plan asks for are left out, because they would hide main effects. */
    public boolean leavesInteractionsOut() {
        return highestOrder() < Math.min(trial.factors().size(), trial.choices().interactions());
    }

    /** Whether fewer than three quarters of the treatments were sown: on purpose, then, and not by oversight. */
    public boolean isFraction() {
        return trial.factors().size() > 1
                && treatments().size() < MOST_OF_ALL * trial.treatments().size();
    }

    /** Whether no two trays got the same. */
    public boolean repeatsNoTreatment() {
        return treatments().size() == trays.size();
    }

    /** The treatments that were sown. */
    private List<Treatment> treatments() {
        return trays.stream().map(Tray::treatment).distinct().toList();
    }

    /** What a fraction can't tell apart, in sentences; none for another layout. */
    public List<String> confusions() {
        return isFraction() ? Confusion.sentences(trial, trial.factorNames(), treatments()) : List.of();
    }

    /** Names of the strata, outermost first; the last is tray. */
    public List<String> strataNames() {
        return strataNames;
    }

    /** The batches that a factor's levels come in, where they are a stratum of their own. */
    public Optional<Batch> batchesOf(String factor) {
        return trial.batches().stream()
                .filter(b -> b.of().equals(factor) && strataNames.contains(b.name()))
                .findFirst();
    }

    /** The levels of a factor that some tray got, the control first where it is one of them. */
    public List<String> sownLevels(Factor factor) {
        return trial.levelsFromControl(factor).stream()
                .filter(l -> trays.stream().anyMatch(t -> l.equals(t.treatment().level(factor.name()))))
                .toList();
    }

    /**
     * Whether every level of a factor that was sown came out of a single batch, so that levels differ wherever batches do
     * and trays of one level repeat nothing.
     */
    public boolean hasOneBatchEach(String factor) {
        var sown =
                Grouping.by(trays.stream().map(t -> t.treatment().level(factor)).toList());
        return trial.batches().stream()
                .anyMatch(b -> b.of().equals(factor) && units(trays, b).groups() == sown.groups());
    }

    /** The strata, in the order of their names. */
    public Strata strata() {
        return strata;
    }

    /**
     * Whether what is known of a term lies in several strata and has to be put together: there is a stratum above the
     * trays', and the layout is not orthogonal.
     */
    public boolean isSpread() {
        return strata.size() > 1 && !decomposition.isOrthogonal();
    }

    /** How the terms fall into the strata. */
    public Decomposition decomposition() {
        return decomposition;
    }

    /** The grouping of the trays into the units of a place level, or into single trays. */
    public Grouping units(String level) {
        return level.equals(Place.TRAY) ? units(trial, trays, level) : placeUnits.get(level);
    }

    /**
     * The stratum in which a term is to be tested: of those that hold information on it and have something left to test
     * it against, the one with the largest share. Empty where there is none, as for a factor with
     * {@linkplain #hasOneBatchEach one batch for each level}.
     */
    public Optional<Integer> testedIn(Term term) {
        if (term.isMain() && hasOneBatchEach(term.factors().get(0))) {
            return Optional.empty();
        }
        return parts(term).stream()
                .filter(p -> decomposition.residualDf(p.stratum()) > 0)
                .max(Comparator.comparingDouble(p -> p.df() * p.efficiency()))
                .map(Decomposition.Part::stratum);
    }

    /** The degrees of freedom that a term is tested with; empty where no stratum can test it. */
    public Optional<Integer> freedom(Term term) {
        return testedIn(term).map(decomposition::residualDf);
    }

    /** Whether nothing at all can test a term: no stratum, nor, in a layout that is not orthogonal, strata put together. */
    public boolean isUntestable(Term term) {
        return testedIn(term).isEmpty()
                && !(isSpread() && parts(term).stream().anyMatch(p -> decomposition.errorDf(p.stratum()) > 0));
    }

    /** Where a term lies, by stratum. */
    public List<Decomposition.Part> parts(Term term) {
        int number = terms.indexOf(term);
        return decomposition.parts().stream().filter(p -> p.term() == number).toList();
    }

    /**
     * The place levels that enter a model as fixed blocks: those outside every level that a factor is applied to, less
     * those that only hold whole units of another such.
     */
    public List<String> fixedBlocks() {
        return fixedBlocks;
    }

    private List<String> blocksOutsideFactors() {
        var place = trial.place();
        var outside = place.names().stream()
                .filter(l -> units(l).groups() > 1 && !trial.moves(l))
                .filter(l -> trial.factors().stream().allMatch(f -> place.contains(l, f.appliedTo())))
                .toList();
        return outside.stream()
                .filter(l -> outside.stream().noneMatch(inner -> place.contains(l, inner)))
                .toList();
    }
}
