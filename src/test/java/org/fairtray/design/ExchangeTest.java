package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ExchangeTest {
    /** Two groups: a a b and c c d d; their units stand mixed. */
    private static final List<String> GROUPS = List.of("1", "2", "1", "2", "2", "1", "2");

    private static final List<String> LABELS = List.of("b", "d", "a", "c", "d", "a", "c");

    private static Exchange exchange(List<String> groups, List<String> labels) {
        return new Exchange(Arrangements.Scheme.PERMUTED, "", true, groups, labels, 1);
    }

    /** The label that each unit's readings come to stand under. */
    private static String labels(int[] sources) {
        var labels = new String[sources.length];
        for (int u = 0; u < sources.length; u++) {
            assertEquals(GROUPS.get(u), GROUPS.get(sources[u]), "the group of where it comes from");
            labels[sources[u]] = LABELS.get(u);
        }
        return String.join("", labels);
    }

    @Test
    void everyArrangementOfLabelsComesOnce() {
        var exchange = exchange(GROUPS, LABELS);
        Map<String, Integer> seen = new HashMap<>();
        exchange.all(sources -> seen.merge(labels(sources), 1, Integer::sum));
        assertEquals(3 * 6, exchange.number());
        assertEquals(18, seen.size());
        assertEquals(18, seen.values().stream().mapToInt(n -> n).sum());
    }

    @Test
    void everyArrangementOfLabelsIsDrawnEquallyOften() {
        Map<String, Integer> seen = new HashMap<>();
        exchange(GROUPS, LABELS).draw(18_000, Generator.of(3), sources -> seen.merge(labels(sources), 1, Integer::sum));
        Uniformity.assertUniform(seen.values(), 18, 18_000);
    }

    @Test
    void hugeNumbersAreMany() {
        var names = Arrays.stream(new int[2000]).mapToObj(i -> "one").toList();
        var labels = IntStream.range(0, 2000).mapToObj(Integer::toString).toList();
        var huge = exchange(names, labels);
        assertFalse(huge.few());
        assertEquals(Double.POSITIVE_INFINITY, huge.number());
        assertEquals(0, huge.smallestShare());
    }
}
