package org.fairtray.statistics;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;

class ModelMatrixTest {
    private static ModelMatrix.Column column(String name, double... values) {
        return new ModelMatrix.Column(name, values);
    }

    /** Soak and mat go together in all trays but for the last two, which have neither. */
    private static final ModelMatrix CONFOUNDED = ModelMatrix.of(List.of(
            column("(base)", 1, 1, 1, 1),
            column("soak", 1, 1, 0, 0),
            column("mat", 1, 1, 0, 0),
            column("block", 1, 0, 1, 0)));

    @Test
    void leavesOutTheLaterOfTwoThatSayTheSame() {
        assertEquals(List.of("(base)", "soak", "block"), CONFOUNDED.names());
        assertEquals(List.of("mat"), CONFOUNDED.redundant());
        assertEquals(3, CONFOUNDED.width());
        assertEquals(4, CONFOUNDED.height());
        assertArrayEquals(new double[] {1, 1, 0}, CONFOUNDED.row(1));
    }

    @Test
    void onlyTheSumOfConfoundedColumnsCanBeEstimated() {
        assertTrue(CONFOUNDED.estimable(new double[] {0, 1, 1, 0}));
        assertTrue(CONFOUNDED.estimable(new double[] {0, 0, 0, 1}));
        assertTrue(CONFOUNDED.estimable(new double[] {1, 0.5, 0.5, 0.5}));
        assertFalse(CONFOUNDED.estimable(new double[] {0, 1, 0, 0}));
        assertFalse(CONFOUNDED.estimable(new double[] {0, 0, 1, 0}));
    }

    @Test
    void aColumnOfNothingHasNoWeight() {
        var never = ModelMatrix.of(List.of(column("(base)", 1, 1), column("soak", 0, 1), column("never", 0, 0)));
        assertEquals(List.of("never"), never.redundant());
        assertTrue(never.estimable(new double[] {0, 1, 0}));
        assertFalse(never.estimable(new double[] {0, 1, 1}));
    }

    @Test
    void aRelationMayTakeInSeveralColumns() {
        var blocks = ModelMatrix.of(List.of(
                column("a", 1, 0, 0, 1), column("b", 0, 1, 0, 0), column("c", 0, 0, 1, 0), column("all", 1, 1, 1, 1)));
        assertEquals(List.of("all"), blocks.redundant());
        assertTrue(blocks.estimable(new double[] {1, 0, 0, 1}));
        assertTrue(blocks.estimable(new double[] {1, -1, 0, 0}));
        assertFalse(blocks.estimable(new double[] {1, 0, 0, 0}));
    }

    @Test
    void theFirstOfEachRelationIsKept() {
        var halves = List.of(
                column("nothing", 0, 0, 0, 0),
                column("second", 0, 0, 1, 1),
                column("first", 1, 1, 0, 0),
                column("other", 1, 0, 1, 0),
                column("all", 1, 1, 1, 1),
                column("again", 1, 1, 1, 1));
        assertEquals(List.of("second", "first", "other"), ModelMatrix.of(halves).names());
        assertEquals(List.of("nothing", "all", "again"), ModelMatrix.of(halves).redundant());
    }

    @Test
    void whatIsLeftOfAColumnDecidesWhereProductsLeaveADoubt() {
        var base = column("base", 1, 1, 1, 1);
        var near = column("near", 1, 1, 1, 1 + 1e-7);
        var same = column("same", 1, 1, 1, 1 + 1e-11);
        assertEquals(List.of(), ModelMatrix.of(List.of(base, near)).redundant());
        assertEquals(List.of("same"), ModelMatrix.of(List.of(base, same)).redundant());
    }

    @Test
    void weightsOfKeptColumnsAreInTheirOrder() {
        assertArrayEquals(new double[] {1, 2, 4}, CONFOUNDED.ofKept(new double[] {1, 2, 3, 4}));
    }

    @Test
    void sumsAndProductsAreOverRows() {
        double[] weight = {1, 2, 3, 4};
        assertArrayEquals(new double[] {10, 3, 4}, CONFOUNDED.sum(weight));
        assertArrayEquals(new double[][] {{10, 3, 4}, {3, 3, 1}, {4, 1, 4}}, CONFOUNDED.products(weight));
    }
}
