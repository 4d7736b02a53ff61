package org.fairtray.statistics.strata;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.params.provider.Arguments.arguments;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.fairtray.statistics.Grid;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.Vectors;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class StrataTest {
    private static final Grid NESTED = Grid.of(2, 3, 4);
    private static final Grid SQUARE = Grid.of(4, 4);
    private static final Grid STRIPS = Grid.of(3, 4, 5);
    private static final Grid CUBE = Grid.of(3, 4, 2);

    private static Arguments layout(String name, List<Integer> dimensions, Grouping... groupings) {
        return arguments(Named.of(name, List.of(groupings)), dimensions);
    }

    private static Arguments strips(String name, Grid grid, Integer... dimensions) {
        return layout(name, List.of(dimensions), grid.by(0), grid.by(0, 1), grid.by(0, 2), grid.by(0, 1, 2));
    }

    /** Dimensions by counting: groups, less one, less what coarser strata hold; for uneven crossing, ranks. */
    static Stream<Arguments> layouts() {
        var uneven = SQUARE.without(3, 5);
        var rings = Grouping.by(List.of(0, 0, 1, 1, 2, 2, 3, 3));
        var pairs = Grouping.by(List.of(1, 0, 0, 1, 3, 2, 2, 3));
        return Stream.of(
                layout("single trays", List.of(5), Grouping.by(List.of(1, 2, 3, 4, 5, 6))),
                layout("one tray", List.of(0), Grouping.by(List.of(1))),
                layout("nested", List.of(1, 4, 18), NESTED.by(0), NESTED.by(0, 1), NESTED.by(0, 1, 2)),
                layout("crossed", List.of(3, 3, 9), SQUARE.by(0), SQUARE.by(1), SQUARE.by(0, 1)),
                strips("strips in blocks", STRIPS, 2, 9, 12, 36),
                layout("three ways", List.of(2, 3, 1, 17), CUBE.by(0), CUBE.by(1), CUBE.by(2), CUBE.by(0, 1, 2)),
                layout(
                        "three ways with the cells of two",
                        List.of(2, 3, 6, 1, 2, 9),
                        CUBE.by(0),
                        CUBE.by(1),
                        CUBE.by(0, 1),
                        CUBE.by(2),
                        CUBE.by(0, 2),
                        CUBE.by(0, 1, 2)),
                layout("crossed with three missing", List.of(3, 3, 6), uneven.by(0), uneven.by(1), uneven.by(0, 1)),
                strips("strips with one missing", STRIPS.without(1, 3), 2, 9, 12, 35),
                strips("strips with many missing", STRIPS.without(15, 4), 2, 9, 12, 21),
                layout(
                        "crossed in sets that no grouping tells apart",
                        List.of(3, 2, 2),
                        rings,
                        pairs,
                        Grouping.by(List.of(1, 2, 3, 4, 5, 6, 7, 8))),
                layout("a level like another", List.of(5, 0, 18), NESTED.by(0, 1), NESTED.by(1, 0), NESTED.by(0, 1, 2)),
                layout(
                        "a level like single trays",
                        List.of(1, 22, 0),
                        NESTED.by(0),
                        NESTED.by(2, 1, 0),
                        NESTED.by(0, 1, 2)),
                layout(
                        "a level with one unit",
                        List.of(0, 1, 22),
                        Grouping.whole(24),
                        NESTED.by(0),
                        NESTED.by(0, 1, 2)),
                layout(
                        "nested with missing",
                        List.of(1, 4, 12),
                        Stream.of(NESTED.without(6, 2))
                                .flatMap(g -> Stream.of(g.by(0), g.by(0, 1), g.by(0, 1, 2)))
                                .toArray(Grouping[]::new)));
    }

    @ParameterizedTest
    @MethodSource("layouts")
    void dimensionsAreThoseOfTheSpaces(List<Grouping> groupings, List<Integer> dimensions) {
        var strata = Strata.of(groupings);
        assertEquals(
                dimensions,
                IntStream.range(0, strata.size()).mapToObj(strata::dimension).toList());
        for (int s = 0; s < strata.size(); s++) {
            SUMMED.assertClose(
                    strata.dimension(s),
                    trace(strata, s),
                    Math.max(1, groupings.get(0).size()));
        }
    }

    /** The trace of a projection is its dimension. */
    private static double trace(Strata strata, int s) {
        int n = strata.grouping(0).size();
        double trace = 0;
        for (int i = 0; i < n; i++) {
            var unit = new double[n];
            unit[i] = 1;
            trace += strata.project(s, unit)[i];
        }
        return trace;
    }

    @ParameterizedTest
    @MethodSource("layouts")
    void partsAreOrthogonalProjectionsThatAddUp(List<Grouping> groupings, List<Integer> dimensions) {
        var strata = Strata.of(groupings);
        int n = groupings.get(0).size();
        double[] vector = new Random(17).doubles(n, -1, 1).toArray();
        double[] other = new Random(18).doubles(n, -1, 1).toArray();
        var rest = Strata.centred(vector);
        for (int s = 0; s < strata.size(); s++) {
            double[] part = strata.project(s, vector);
            assertNear(part, strata.project(s, part));
            SUMMED.assertClose(Vectors.dot(part, other), Vectors.dot(vector, strata.project(s, other)), n);
            for (int t = 0; t < s; t++) {
                assertNear(new double[n], strata.project(t, part));
                SUMMED.assertClose(0, Vectors.dot(part, strata.project(t, other)), n);
            }
            Vectors.takeAway(rest, 1, part);
        }
        assertNear(new double[n], rest);
        assertEquals(n - 1, dimensions.stream().mapToInt(Integer::intValue).sum());
    }

    private static void assertNear(double[] expected, double[] actual) {
        for (int i = 0; i < expected.length; i++) {
            SUMMED.assertClose(expected[i], actual[i], 1);
        }
    }

    @ParameterizedTest
    @MethodSource("layouts")
    void whatIsTheSameWithinAGroupLiesInItsStratumOrAbove(List<Grouping> groupings, List<Integer> dimensions) {
        var strata = Strata.of(groupings);
        for (int s = 0; s < strata.size(); s++) {
            double[] steady = groupings
                    .get(s)
                    .average(new Random(19).doubles(groupings.get(s).size()).toArray());
            for (int t = s + 1; t < strata.size(); t++) {
                assertNear(new double[steady.length], strata.project(t, steady));
            }
        }
    }

    @Test
    void knowsWhichStrataAreCoarser() {
        var strata = Strata.of(List.of(STRIPS.by(0), STRIPS.by(0, 1), STRIPS.by(0, 2), STRIPS.by(0, 1, 2)));
        assertEquals(List.of(), strata.coarser(0));
        assertEquals(List.of(0), strata.coarser(2));
        assertEquals(List.of(0, 1, 2), strata.coarser(3));
    }

    @Test
    void largeValuesKeepTheirDifferences() {
        double[] values = {1e12 + 1, 1e12 + 2, 1e12 + 3, 1e12 + 6};
        assertArrayEquals(new double[] {-2, -1, 0, 3}, Strata.centred(values));
        assertEquals(1e12 + 1, values[0]);
    }

    @Test
    void refusesGroupingsOfDifferentThings() {
        assertThrows(IllegalArgumentException.class, () -> Strata.of(List.of()));
        var refused = assertThrows(
                IllegalArgumentException.class, () -> Strata.of(Arrays.asList(Grouping.whole(3), Grouping.whole(4))));
        assertEquals(
                "[1 groups of 3, 1 groups of 4]: expected one or more groupings of the same things",
                refused.getMessage());
    }
}
