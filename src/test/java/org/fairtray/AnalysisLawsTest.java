package org.fairtray;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Trials.SEEDS;
import static org.fairtray.Trials.factor;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.function.UnaryOperator;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must not matter doesn't, in trials of many kinds drawn from seeds. */
class AnalysisLawsTest {
    /** A trial of one kind or another with a few trays lost and readings by chance. */
    private static Trials drawn(long seed) {
        var random = new Random(seed);
        var trials = Trials.kinds().get((int) (seed % Trials.kinds().size())).drawn(seed);
        if (seed > 12) {
            trials = trials.keeping(t -> random.nextInt(12) > 0);
        }
        return trials.read(t -> {
            double rate = 0.25 + 0.04 * Math.floorMod(t.treatment().levels().hashCode(), 7) + 0.2 * random.nextDouble();
            return Map.of("through", (double) Math.round(SEEDS * rate), "height_mm", 10 * rate + random.nextGaussian());
        });
    }

    private static Map<String, Double> numbers(Findings findings) {
        return numbers(findings, UnaryOperator.identity());
    }

    /** Every number of interest by a name in which factors and levels go by their first names. */
    private static Map<String, Double> numbers(Findings findings, UnaryOperator<String> named) {
        var numbers = new TreeMap<String, Double>();
        for (var outcome : findings.outcomes()) {
            String name = outcome.name() + " ";
            outcome.tests().forEach(t -> {
                put(numbers, name + "F " + factors(t.factors(), named), t.value());
                put(numbers, name + "p " + factors(t.factors(), named), t.p());
            });
            outcome.effects().forEach(e -> {
                String level = named.apply(e.factor()) + "=" + named.apply(e.level());
                put(numbers, name + "difference " + level, e.difference());
                put(numbers, name + "low " + level, e.low());
                put(numbers, name + "adjusted " + level, e.pAdjusted());
            });
            for (var stratum : outcome.anova().strata()) {
                stratum.terms()
                        .forEach(t -> put(
                                numbers,
                                name + stratum.stratum() + " " + factors(t.factors(), named),
                                t.sumOfSquares()));
                if (stratum.residual() != null) {
                    put(
                            numbers,
                            name + stratum.stratum() + " residual",
                            stratum.residual().sumOfSquares());
                }
            }
        }
        return numbers;
    }

    private static String factors(List<String> factors, UnaryOperator<String> named) {
        return String.join(" × ", factors.stream().map(named).sorted().toList());
    }

    private static void put(Map<String, Double> numbers, String name, Double number) {
        numbers.put(name, number == null ? Double.valueOf(-99) : number);
    }

    private static void assertSame(Map<String, Double> expected, Map<String, Double> actual) {
        assertFalse(expected.isEmpty());
        assertEquals(expected.keySet(), actual.keySet());
        expected.forEach(
                (name, number) -> ITERATED.assertClose(number, actual.get(name), Math.max(1e-3, Math.abs(number))));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24})
    void everyKindOfTrialIsSound(long seed) {
        assertEquals(2, Sound.findings(drawn(seed)).outcomes().size());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 13, 14, 15, 16, 17, 18})
    void theOrderOfTraysAndReadingsDoesNotMatter(long seed) {
        var trials = drawn(seed);
        var trays = new ArrayList<>(trials.layout().trays());
        Collections.shuffle(trays, new Random(seed + 1));
        var readings = new ArrayList<>(trials.readings());
        Collections.shuffle(readings, new Random(seed + 2));
        var shuffled = trials.with(new Layout(trays)).with(readings);
        assertSame(numbers(trials.findings()), numbers(shuffled.findings()));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 13, 14, 15, 16, 17, 18})
    void theNamesOfFactorsAndLevelsDoNotMatter(long seed) {
        var trials = drawn(seed);
        UnaryOperator<String> renamed = name -> "z" + new StringBuilder(name).reverse();
        UnaryOperator<String> back =
                name -> new StringBuilder(name.substring(1)).reverse().toString();
        var factors = trials.trial().factors().stream()
                .map(f -> new Factor(
                        renamed.apply(f.name()),
                        f.unit(),
                        f.levels().stream().map(renamed).toList(),
                        f.appliedTo()))
                .toList();
        var trays = trials.layout().trays().stream()
                .map(t -> new Tray(t.code(), t.stand(), t.batches(), renamed(t.treatment(), renamed)))
                .toList();
        var other = trials.varying(factors).with(new Layout(trays));
        assertSame(numbers(trials.findings()), numbers(other.findings(), back));
    }

    private static Treatment renamed(Treatment treatment, UnaryOperator<String> renamed) {
        var levels = new LinkedHashMap<String, String>();
        treatment.levels().forEach((factor, level) -> levels.put(renamed.apply(factor), renamed.apply(level)));
        return new Treatment(levels);
    }

    /** Effects are against the control, so it stays the same one; the order of the others and of factors is free. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 13, 14, 15, 16, 17, 18})
    void theOrderOfFactorsAndLevelsDoesNotMatter(long seed) {
        var trials = drawn(seed);
        var factors = new ArrayList<Factor>();
        for (var factor : trials.trial().factors()) {
            var levels = new ArrayList<>(factor.levels());
            Collections.reverse(levels.subList(1, levels.size()));
            factors.add(0, new Factor(factor.name(), factor.unit(), levels, factor.appliedTo()));
        }
        assertSame(numbers(trials.findings()), numbers(trials.varying(factors).findings()));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 13, 14, 15, 16, 17, 18})
    void aConstantAddedToAMeasureChangesNoF(long seed) {
        var trials = drawn(seed);
        var raised = trials.with(trials.readings().stream()
                .map(r -> Trials.reading(
                        r.tray(),
                        r.day(),
                        r.frame(),
                        Map.of(
                                "through",
                                r.values().get("through"),
                                "height_mm",
                                r.values().get("height_mm") + 1000)))
                .toList());
        assertSame(numbers(trials.findings()), numbers(raised.findings()));
    }

    /** Against which level others are compared moves no test. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 13, 14, 15, 16, 17, 18})
    void anotherControlChangesNoTest(long seed) {
        var trials = drawn(seed);
        var factor = trials.trial().factors().get(0);
        var other = trials.against(
                factor.name(), factor.levels().get(factor.levels().size() - 1));
        var tests = numbers(trials.findings());
        var others = numbers(other.findings());
        List.of(tests, others).forEach(n -> n.keySet().removeIf(k -> k.matches("\\S+ (difference|low|adjusted) .*")));
        assertSame(tests, others);
    }
}
