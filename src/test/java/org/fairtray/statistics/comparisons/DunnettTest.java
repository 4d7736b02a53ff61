package org.fairtray.statistics.comparisons;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.fairtray.Tolerance;
import org.fairtray.statistics.Tail;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;

class DunnettTest {
    private static final Tolerance NINE_DECIMALS = new Tolerance(6e-10);

    @ParameterizedTest
    @CsvFileSource(resources = "dunnett-p.csv", useHeadersInDisplayName = true)
    void tailsAgreeWithTheReference(int comparisons, double df, double t, double p) {
        var dunnett = Dunnett.equal(comparisons, df);
        NINE_DECIMALS.assertClose(p, dunnett.p(-t), 1);
        NINE_DECIMALS.assertClose(1 - p, dunnett.probability(t), 1);
    }

    /** A correlation of n / (n + n0) belongs to a control of n0 = n (1 - rho) / rho. */
    @ParameterizedTest
    @CsvFileSource(resources = "dunnett-quantiles.csv", useHeadersInDisplayName = true)
    void quantilesAgreeWithTheReference(int comparisons, double df, double rho, double alpha, double critical) {
        var sizes = new double[comparisons];
        java.util.Arrays.fill(sizes, 6);
        var dunnett = Dunnett.sizes(6 * (1 - rho) / rho, sizes, df);
        ITERATED.assertClose(critical, dunnett.quantile(1 - alpha));
    }

    @ParameterizedTest
    @ValueSource(doubles = {1, 1.3, 2, 3.7, 10, 1e6})
    void oneComparisonIsStudentsT(double df) {
        for (double t : new double[] {0.3, 1, 2, 4, 12, 60}) {
            SUMMED.assertClose(Tail.tTwoSided(t, df), Dunnett.equal(1, df).p(t), 1);
        }
    }

    /** Independent comparisons with known variance: the product of each alone. */
    @Test
    void independentComparisonsMultiply() {
        var dunnett = Dunnett.loadings(new double[3], Double.POSITIVE_INFINITY);
        SUMMED.assertClose(Math.pow(1 - Tail.chiSquared(4, 1), 3), dunnett.probability(2), 1);
    }

    /** Turning a comparison round changes the sign of its loading, and nothing of the largest |t|. */
    @Test
    void signsDoNotMatter() {
        var dunnett = Dunnett.loadings(new double[] {0.3, 0.6, 0.9}, 7);
        var turned = Dunnett.loadings(new double[] {0.9, -0.3, 0.6}, 7);
        SUMMED.assertClose(dunnett.p(2.1), turned.p(2.1), 1);
    }

    /**
     * R 4.2.2, mvtnorm 1.1.3: 1 - pmvt(-2.3, 2.3, df = 9, corr = R, algorithm = GenzBretz(maxpts = 5e5, abseps = 1e-7)),
     * R of sizes 4, 2, 8 against a control of 5; its error is below 1e-6.
     */
    @Test
    void unequalSizesAgreeWithTheReference() {
        var unequal = Dunnett.sizes(5, new double[] {4, 2, 8}, 9);
        new Tolerance(3e-6).assertClose(0.1144738, unequal.p(2.3), 1);
    }

    @Test
    void refusesWhatIsOutOfRange() {
        var refused = assertThrows(IllegalArgumentException.class, () -> Dunnett.equal(0, 5));
        assertEquals("0 comparisons: expected 1 or more", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> Dunnett.sizes(0, new double[] {1}, 5));
        assertEquals("sizes 0.0, [1.0]: expected numbers above 0", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> Dunnett.loadings(new double[] {1}, 5));
        assertEquals("loadings [1.0]: expected one or more between -1 and 1", refused.getMessage());
        refused = assertThrows(IllegalArgumentException.class, () -> Dunnett.equal(1, Double.NaN));
        assertEquals("NaN degrees of freedom: expected a number above 0", refused.getMessage());
    }
}
