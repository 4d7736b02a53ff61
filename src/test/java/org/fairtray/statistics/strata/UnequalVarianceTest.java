package org.fairtray.statistics.strata;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.junit.jupiter.api.Test;

class UnequalVarianceTest {
    private static final double[] VALUES = {3, 7, 8, 4, 9, 20, 1, 15, 30, 2, 11, 6};
    private static final Grouping TWO = Grouping.by(List.of(0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1));

    private static final double[] DIFFERENCE =
            IntStream.range(0, 12).mapToDouble(i -> i < 5 ? 0.2 : -1.0 / 7).toArray();

    private static Decomposition decomposition(Strata strata, Grouping cells, int df) {
        return Decomposition.of(strata, List.of(new ModelTerm(Set.of("mat"), cells, df)));
    }

    private static Grouping each(int n) {
        return Grouping.by(IntStream.range(0, n).boxed().toList());
    }

    /**
     * R 4.2.2: x &lt;- c(3,7,8,4,9); y &lt;- c(20,1,15,30,2,11,6); var(x)/5 + var(y)/7, the squared standard error of
     * t.test(x, y); its degrees of freedom if both varied alike: (1/5 + 1/7)^2 / (1/(25 * 4) + 1/(49 * 6)).
     */
    @Test
    void ofTwoGroupsIsWelchs() {
        var strata = Strata.of(List.of(each(12)));
        var spread = UnequalVariance.of(strata, decomposition(strata, TWO, 1), 0, VALUES)
                .flatMap(u -> u.of(DIFFERENCE))
                .orElseThrow();
        CLOSED_FORM.assertClose(VARIANCE, spread.variance());
        SUMMED.assertClose(DF, spread.degreesOfFreedom());
    }

    private static final double VARIANCE = 16.931836734693878;
    private static final double DF = (0.2 + 1.0 / 7) * (0.2 + 1.0 / 7) / (1.0 / 100 + 1.0 / 294);

    /** In stacks that each hold both levels the paired differences tell: their variance over their number. */
    @Test
    void ofPairsInStacksIsThatOfTheirDifferences() {
        double[] values = {3, 5, 7, 4, 9, 20, 1, 15};
        var stacks = Grouping.by(List.of(0, 0, 1, 1, 2, 2, 3, 3));
        var level = Grouping.by(List.of(0, 1, 0, 1, 0, 1, 0, 1));
        var strata = Strata.of(List.of(stacks, each(8)));
        double[] contrast = {0.25, -0.25, 0.25, -0.25, 0.25, -0.25, 0.25, -0.25};
        var spread = UnequalVariance.of(strata, decomposition(strata, level, 1), 1, values)
                .flatMap(u -> u.of(contrast))
                .orElseThrow();
        double[] differences = {-2, 3, -11, -14};
        double mean = -6;
        double sum = 0;
        for (double d : differences) {
            sum += (d - mean) * (d - mean);
        }
        SUMMED.assertClose(sum / 3 / 4, spread.variance());
        SUMMED.assertClose(3, spread.degreesOfFreedom());
    }

    @Test
    void withNothingLeftOverThereIsNone() {
        var strata = Strata.of(List.of(each(3)));
        assertTrue(UnequalVariance.of(strata, decomposition(strata, each(3), 2), 0, new double[] {1, 2, 3})
                .isEmpty());
    }
}
