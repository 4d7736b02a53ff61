package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/**
 * A layout and what is taken for granted of it, from which its closed form is worked out: for the option that the plan
 * describes, and for as many others as one likes without looking at the layout again.
 */
public final class SizedLayout {
    /** Nobody sows so many times as much. */
    public static final int MOST_TIMES = 50;

    /** With fewer of either kind expected in a tray, values are far from normal. */
    static final double FEW = 5;

    private static final double[] CORRELATIONS = {0, 0.01, 0.02, 0.05, 0.1, 0.2};
    private static final double[] PLACE_SDS = {0, 0.2, 0.4};

    private final Structure structure;
    private final Assumptions assumptions;
    private final Option option;
    private final List<StratumTest> tests;

    private SizedLayout(Structure structure, Assumptions assumptions) {
        this.structure = structure;
        this.assumptions = assumptions;
        this.option = Option.of(structure.trial().counting());
        this.tests = counts()
                ? structure.terms().stream()
                        .flatMap(t -> StratumTest.of(structure, t).stream())
                        .toList()
                : List.of();
    }

    /** A layout with what its plan expects, and what is usual where it expects nothing. */
    public static SizedLayout of(Trial trial, Layout layout) {
        var assumptions = Assumptions.of(trial);
        return new SizedLayout(Structure.of(assumptions.fill(trial), layout.trays()), assumptions);
    }

    /**
     * A layout with what its plan expects, some of it learned from an earlier trial.
     *
     * @param learned keys of assumptions that were learned, such as {@code control_rate}
     * @param from the earlier trial's title
     */
    public static SizedLayout of(Trial trial, Layout layout, Set<String> learned, String from) {
        var assumptions = Assumptions.of(trial).learned(learned, from);
        return new SizedLayout(Structure.of(assumptions.fill(trial), layout.trays()), assumptions);
    }

    /** The layout, its trial's expectations filled in. */
    public Structure structure() {
        return structure;
    }

    /** What is taken for granted. */
    public Assumptions assumptions() {
        return assumptions;
    }

    /** Whether the first outcome is a count; of a measure nothing is worked out. */
    boolean counts() {
        return structure.trial().outcomes().get(0).match(c -> true, m -> false);
    }

    /** Whether in some tray so few are expected to come out, or to fail, that formulae are rough. */
    public boolean expectsFew() {
        double rarer = Math.min(assumptions.controlRate(), 1 - assumptions.raisedRate());
        return option.seeds() * rarer < FEW;
    }

    /** The factors that nothing can test. */
    List<Factor> untested() {
        return structure.trial().factors().stream()
                .filter(f -> test(new Term(List.of(f.name()))).isEmpty())
                .toList();
    }

    /** What the plan counts, its layout once. */
    public Option option() {
        return option;
    }

    /** The tests of the terms that can be tested, in the order of the terms. */
    public List<StratumTest> tests() {
        return tests;
    }

    /** The closed form of every term that can be tested, the option being the plan's. */
    public List<ClosedForm> closedForm() {
        return at(List.of(option)).get(0);
    }

    /** The closed form of every term that can be tested, for each option in their order. */
    public List<List<ClosedForm>> at(List<Option> options) {
        var byTerm =
                tests.stream().map(t -> ClosedForm.of(t, assumptions, options)).toList();
        return IntStream.range(0, options.size())
                .mapToObj(o -> byTerm.stream().map(t -> t.get(o)).toList())
                .toList();
    }

    /** The power of a factor; empty where nothing can test it or the rates are not possible. */
    Optional<StrataPower> power(Factor factor) {
        return test(new Term(List.of(factor.name())))
                .filter(t -> assumptions.possible())
                .map(t -> new StrataPower(t, assumptions, option));
    }

    private Optional<StratumTest> test(Term term) {
        return tests.stream().filter(t -> t.term().equals(term)).findFirst();
    }

    /** All of it. */
    public Sizing sizing() {
        var trial = structure.trial();
        var closed = closedForm();
        var needed = trial.factors().stream().flatMap(f -> needed(f).stream()).toList();
        return new Sizing(
                trial.title(),
                trial.outcomes().get(0).name(),
                structure.trays().size(),
                replicates().isPresent() ? replicates().getAsInt() : null,
                option.seeds(),
                structure.terms().stream()
                        .map(t -> new Sizing.TermPower(t.name(), Sizing.ANOVA, power(closed, t), null, null))
                        .toList(),
                0,
                trial.factors().stream()
                        .map(f -> new Sizing.SmallestChange(
                                f.name(), smallest(closed, new Term(List.of(f.name()))), assumptions.power()))
                        .toList(),
                new SizingAdvice(this, needed).text(),
                closed,
                needed,
                seeds(),
                sensitivity(),
                counts() ? assumptions.sources() : List.of(),
                assumptions.power(),
                assumptions.choices().alpha(),
                SizingNotes.of(this),
                null,
                null);
    }

    private static Double power(List<ClosedForm> closed, Term term) {
        return closed.stream()
                .filter(c -> c.term().equals(term.name()))
                .findFirst()
                .map(ClosedForm::power)
                .orElse(null);
    }

    private static Double smallest(List<ClosedForm> closed, Term term) {
        return closed.stream()
                .filter(c -> c.term().equals(term.name()))
                .findFirst()
                .map(ClosedForm::smallestChange)
                .orElse(null);
    }

    private Map<List<String>, Long> treatments() {
        return structure.trays().stream()
                .collect(Collectors.groupingBy(
                        t -> List.copyOf(t.treatment().levels().values()), LinkedHashMap::new, Collectors.counting()));
    }

    OptionalInt replicates() {
        var numbers = new LinkedHashSet<>(treatments().values());
        return numbers.size() == 1 ? OptionalInt.of(numbers.iterator().next().intValue()) : OptionalInt.empty();
    }

    private Optional<Sizing.Needed> needed(Factor factor) {
        return power(factor).map(p -> {
            var test = p.test();
            var units = p.unitsNeeded(assumptions.worthwhile(), assumptions.power(), MOST_TIMES);
            if (units.isEmpty()) {
                return new Sizing.Needed(factor.name(), test.unit(), test.unitsPerLevel(), null, null, null, null);
            }
            int inAll = units.getAsInt() * factor.levels().size();
            int trays = trays(test, units.getAsInt(), inAll);
            return new Sizing.Needed(
                    factor.name(),
                    test.unit(),
                    test.unitsPerLevel(),
                    units.getAsInt(),
                    inAll,
                    trays,
                    fits(test.unit(), inAll, trays));
        });
    }

    private int trays(StratumTest test, int unitsPerLevel, int units) {
        int sets = treatments().size();
        return test.onTrays()
                ? sets * (int) Math.ceil((double) units / sets)
                : (int) Math.ceil(test.trays() * unitsPerLevel / test.unitsPerLevel());
    }

    private boolean fits(String unit, int units, int trays) {
        var place = structure.trial().place();
        return trays <= place.trays() && (!place.has(unit) || units <= place.units(unit));
    }

    private List<Sizing.Seeds> seeds() {
        int planned = option.seedsPerFrame();
        var numbers = new TreeSet<>(List.of(
                Math.max(1, (planned + 2) / 4), Math.max(1, (planned + 1) / 2), planned, 2 * planned, 4 * planned));
        return numbers.stream()
                .map(option::withSeeds)
                .map(o -> new Sizing.Seeds(o.seedsPerFrame(), o.seeds(), chances(assumptions, o)))
                .toList();
    }

    private List<Sizing.Sensitivity> sensitivity() {
        var cases = new ArrayList<Assumptions>();
        var correlations = new TreeSet<Double>();
        correlations.add(assumptions.trayCorrelation());
        for (double correlation : CORRELATIONS) {
            correlations.add(correlation);
        }
        correlations.forEach(c -> cases.add(assumptions.withCorrelation(c)));
        placeSds().forEach(sds -> cases.add(assumptions.withPlaceSd(sds)));
        return cases.stream()
                .map(a -> new Sizing.Sensitivity(a.trayCorrelation(), a.placeSd(), chances(a, option)))
                .toList();
    }

    /** None, half and twice what is assumed; where nothing is, some for every level that matters. */
    private List<Map<String, Double>> placeSds() {
        if (assumptions.placeSd().values().stream().anyMatch(sd -> sd > 0)) {
            return List.of(times(0), times(0.5), times(2));
        }
        var levels = tests.stream()
                .flatMap(t -> t.traysInOne().entrySet().stream())
                .filter(e -> e.getValue() > 1)
                .map(Map.Entry::getKey)
                .distinct()
                .toList();
        return levels.isEmpty()
                ? List.of()
                : IntStream.range(1, PLACE_SDS.length)
                        .mapToObj(i -> levels.stream().collect(Collectors.toMap(l -> l, l -> PLACE_SDS[i])))
                        .toList();
    }

    private Map<String, Double> times(double factor) {
        var changed = new LinkedHashMap<String, Double>();
        assumptions.placeSd().forEach((level, sd) -> changed.put(level, factor * sd));
        return changed;
    }

    private List<Sizing.Chance> chances(Assumptions assumed, Option other) {
        return tests.stream()
                .map(t -> {
                    if (!assumed.possible()) {
                        return new Sizing.Chance(t.term().name(), null, null);
                    }
                    var power = new StrataPower(t, assumed, other);
                    var smallest = power.smallest();
                    return new Sizing.Chance(
                            t.term().name(),
                            power.power(assumed.worthwhile()),
                            smallest.isPresent() ? smallest.getAsDouble() : null);
                })
                .toList();
    }
}
