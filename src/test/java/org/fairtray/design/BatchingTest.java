package org.fairtray.design;

import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.fairtray.Trials;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Trays are dealt to batches fairly, at random, and the same way for the same seed. */
class BatchingTest {
    private static final Factor SOAK = factor("soak", "tray", "0", "8");
    private static final Factor MAT = factor("mat", "tray", "hemp", "coir", "pad");

    private static Trials jars(int count, List<Factor> factors, String... levels) {
        return Trials.of(place(levels), factors, THROUGH).sharing(new Batch("jar", "soak", count));
    }

    private static String jar(Tray tray) {
        return tray.treatment().level("soak") + "." + tray.batches().get("jar");
    }

    /** How often each jar comes together with each of something else. */
    private static Collection<Long> together(Trials trials, Function<Tray, Object> other) {
        return trials.layout().trays().stream()
                .collect(Collectors.groupingBy(t -> List.of(jar(t), other.apply(t)), Collectors.counting()))
                .values();
    }

    private static void assertAll(long each, int pairs, Collection<Long> counts) {
        assertEquals(pairs, counts.size(), counts::toString);
        assertTrue(counts.stream().allMatch(n -> n == each), counts::toString);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void everyJarServesEveryStackAndEveryMatEquallyOften(long seed) {
        var drawn = jars(2, List.of(SOAK, MAT), "shelf 2", "stack 2", "spot 12").drawn(seed);
        assertAll(12, 4, together(drawn, t -> ""));
        assertAll(3, 4 * 4, together(drawn, t -> t.stand().at().subList(0, 2)));
        assertAll(4, 4 * 3, together(drawn, t -> t.treatment().level("mat")));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void whereNumbersDoNotDivideTheyDifferByOneAtMost(long seed) {
        // 2 stacks of 6, so 3 trays a level and stack, 2 jars: one gets 2 in one stack and 1 in the other; 1 of each
        // mat.
        var drawn = jars(2, List.of(SOAK, MAT), "stack 2", "spot 6").drawn(seed);
        assertAll(3, 4, together(drawn, t -> ""));
        assertTrue(together(drawn, t -> t.stand().at().get(0)).stream().allMatch(n -> n == 1 || n == 2));
        assertAll(1, 4 * 3, together(drawn, t -> t.treatment().level("mat")));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void crossedRowsAndColumnsAreBothServedEvenly(long seed) {
        var drawn = jars(2, List.of(SOAK), "row 4", "column 8 across row").drawn(seed);
        assertAll(8, 4, together(drawn, t -> ""));
        assertAll(2, 4 * 4, together(drawn, t -> t.stand().at().get(0)));
        assertAll(1, 4 * 8, together(drawn, t -> t.stand().at().get(1)));
    }

    @Test
    void wholeStacksGetOneJarWhereStacksAreSoaked() {
        var drawn = jars(2, List.of(factor("soak", "stack", "0", "8"), MAT), "stack 8", "spot 3")
                .drawn(1);
        assertAll(3, 8, together(drawn, t -> t.stand().at().get(0)));
        assertAll(6, 4, together(drawn, t -> ""));
    }

    @Test
    void eachWayOfServingIsAsLikelyAsAnyOther() {
        // The 3 trays of soak 8 at the 6 spots of one place; jar 1 of 2 serves 1 or 2 of them: 6 patterns.
        Map<List<Integer>, Integer> patterns = new HashMap<>();
        for (long seed = 0; seed < 6000; seed++) {
            var drawn = jars(2, List.of(SOAK), "spot 6").drawn(seed);
            patterns.merge(
                    drawn.layout().trays().stream()
                            .filter(t -> t.treatment().level("soak").equals("8"))
                            .map(t -> t.batches().get("jar"))
                            .toList(),
                    1,
                    Integer::sum);
        }
        Uniformity.assertUniform(patterns.values(), 6, 6000);
    }

    @Test
    void batchesDoNotChangeWhatTraysGet() {
        var trials = Trials.of(place("stack 2", "spot 6"), List.of(SOAK, MAT), THROUGH);
        var plain = trials.drawn(7);
        var shared = trials.sharing(new Batch("jar", "soak", 2)).drawn(7);
        assertEquals(treatments(plain), treatments(shared));
        assertEquals(
                shared.layout(),
                trials.sharing(new Batch("jar", "soak", 2)).drawn(7).layout());
    }

    private static Map<String, Object> treatments(Trials trials) {
        var treatments = new TreeMap<String, Object>();
        trials.layout().trays().forEach(t -> treatments.put(t.code(), t.treatment()));
        return treatments;
    }

    @Test
    void moreJarsThanTraysAreRefused() {
        var trials = jars(4, List.of(SOAK), "spot 6");
        var thrown = assertThrows(DoesNotFitException.class, () -> trials.drawn(1));
        assertEquals(
                "soak 0 goes to 3 × tray, which is fewer than its 4 × jar: some would serve none. Make at most 3 for each"
                        + " level of soak.",
                thrown.getMessage());
    }

    @Test
    void theDrawIsDescribedWithTheUnitsThatAreCompared() {
        var trials = jars(2, List.of(SOAK, MAT), "stack 2", "spot 6").drawn(1);
        assertEquals(
                List.of(
                        "The levels of soak × mat are given at random to single trays, equally often within each stack.",
                        "Each level of soak has 2 × jar: which jar is for which tray is drawn at random, equally often as"
                                + " far as possible, in every place and with every mat."),
                Randomisation.of(trials.trial()).describe());
        var name = DesignName.of(Structure.of(trials.trial(), trials.layout().trays()));
        assertEquals(
                "A randomised blocks layout: soak on 4 × jar, mat on 12 × tray; differences between stack (2) are set"
                        + " aside.",
                name.sentence());
    }

    @Test
    void oneJarForEachLevelIsFalseReplication() {
        var trials = jars(1, List.of(SOAK, MAT), "stack 2", "spot 6").drawn(1);
        var structure = Structure.of(trials.trial(), trials.layout().trays());
        assertEquals(
                List.of(new Fault(
                        Fault.Kind.FALSE_REPLICATION,
                        List.of("soak"),
                        List.of("jar"),
                        "All trays with the same soak came out of one jar, so a difference between levels of soak can't be"
                                + " told from the difference between any one jar and another. More trays from the same jar"
                                + " don't repeat it.",
                        "Make two jars or more for each level of soak (count: 2 in batches), each for a part of its"
                                + " trays.")),
                Faults.of(structure));
        assertTrue(structure.testedIn(new Term(List.of("soak"))).isEmpty());
        assertTrue(structure.testedIn(new Term(List.of("mat"))).isPresent());
    }

    @Test
    void labelsArePermutedAmongWholeJars() {
        var trials = jars(3, List.of(SOAK), "spot 12").drawn(1);
        var structure = Structure.of(trials.trial(), trials.layout().trays());
        var arrangements = Rerandomisation.of(structure, new Term(List.of("soak")));
        assertEquals(Arrangements.Scheme.PERMUTED, arrangements.scheme());
        // 6 jars, 3 of each level: 6! / (3! 3!) = 20 ways.
        assertEquals(20.0, arrangements.number());
        assertEquals("the levels of soak were exchanged among whole units of jar", arrangements.description());
    }
}
