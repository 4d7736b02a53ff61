package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;

import org.fairtray.Cells;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class HolmTest {

    @ParameterizedTest
    @CsvFileSource(resources = "holm.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            @ConvertWith(Cells.Doubles.class) double[] p, @ConvertWith(Cells.Doubles.class) double[] adjusted) {
        CLOSED_FORM.assertClose(adjusted, Holm.adjust(p));
    }

    @Test
    void leavesTheNumbersItWasGiven() {
        double[] p = {0.04, 0.01};
        Holm.adjust(p);
        assertArrayEquals(new double[] {0.04, 0.01}, p);
    }

    @Test
    void hasNothingToAdjustInNothing() {
        assertArrayEquals(new double[0], Holm.adjust());
    }
}
