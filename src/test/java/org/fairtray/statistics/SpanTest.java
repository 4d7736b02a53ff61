package org.fairtray.statistics;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SpanTest {
    private static final double[] ONES = {1, 1, 1, 1};
    private static final double[] FIRST = {1, 1, 0, 0};
    private static final double[] SECOND = {0, 0, 1, 1};
    private static final double[] OTHER = {1, 0, 1, 0};

    private static List<double[]> random(long seed, int columns, int length) {
        var random = new Random(seed);
        return Stream.generate(() -> random.doubles(length, -1, 1).toArray())
                .limit(columns)
                .toList();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void itsBasisIsOrthonormal(long seed) {
        var basis = Span.empty().with(random(seed, 6, 9)).basisFrom(0);
        for (int i = 0; i < basis.size(); i++) {
            for (int j = 0; j < basis.size(); j++) {
                CLOSED_FORM.assertClose(i == j ? 1 : 0, Vectors.dot(basis.get(i), basis.get(j)), 1);
            }
        }
    }

    @Test
    void hasTheDimensionOfTheRank() {
        assertEquals(0, Span.empty().dimension());
        assertEquals(2, Span.empty().with(List.of(ONES, FIRST, SECOND)).dimension());
        assertEquals(3, Span.empty().with(List.of(ONES, FIRST, SECOND, OTHER)).dimension());
        assertEquals(4, Span.empty().with(random(4, 9, 4)).dimension());
        assertEquals(0, Span.empty().with(List.of(new double[4])).dimension());
    }

    @Test
    void aColumnIsRedundantWhateverItsSize() {
        double[] tiny = {1e-200, 1e-200, 0, 0};
        double[] huge = {0, 0, 1e150, 1e150};
        assertEquals(2, Span.empty().with(List.of(tiny, huge, ONES)).dimension());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void whatIsLeftIsOrthogonalToIt(long seed) {
        var columns = random(seed, 4, 9);
        double[] left =
                Span.empty().with(columns).residual(random(seed + 100, 1, 9).get(0));
        columns.forEach(c -> CLOSED_FORM.assertClose(0, Vectors.dot(c, left), 1));
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void lengthsAlongAndBesideAddUp(long seed) {
        var span = Span.empty().with(random(seed, 4, 9));
        double[] vector = random(seed + 100, 1, 9).get(0);
        CLOSED_FORM.assertClose(
                Vectors.squaredLength(vector),
                span.squaredLengthAlong(vector, 0) + Vectors.squaredLength(span.residual(vector)));
    }

    @Test
    void whatIsAddedStandsApart() {
        var before = Span.empty().with(List.of(ONES));
        var after = before.with(List.of(FIRST));
        assertEquals(1, before.dimension());
        assertEquals(1, after.basisFrom(before.dimension()).size());
        CLOSED_FORM.assertClose(
                new double[] {0.5, 0.5, -0.5, -0.5}, after.basisFrom(1).get(0));
        CLOSED_FORM.assertClose(1, after.squaredLengthAlong(FIRST, 1));
    }

    @Test
    void leavesWhatItWasGiven() {
        double[] column = FIRST.clone();
        double[] vector = OTHER.clone();
        Span.empty().with(List.of(ONES, column)).residual(vector);
        assertArrayEquals(FIRST, column);
        assertArrayEquals(OTHER, vector);
    }
}
