package org.fairtray.statistics.pooling;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import org.fairtray.Cells;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Each left out, one after another, small against large. */
class StudiesLookedAtTest {
    private static void compare(RandomEffects pooled, double estimate, double low, double high, double tauSquared) {
        ITERATED.assertClose(
                new double[] {estimate, low, high, tauSquared},
                pooled.estimate(),
                pooled.low(),
                pooled.high(),
                pooled.tauSquared().orElseThrow());
    }

    @ParameterizedTest
    @CsvFileSource(resources = "each-left-out.csv", useHeadersInDisplayName = true)
    void eachLeftOutAgreesWithTheReference(int out, double estimate, double low, double high, double tauSquared)
            throws java.io.IOException {
        var without = LeaveOneOut.of(VaccineTest.trials(), 0.05);
        assertEquals(13, without.size());
        compare(without.get(out - 1), estimate, low, high, tauSquared);
    }

    @ParameterizedTest
    @CsvFileSource(resources = "one-after-another.csv", useHeadersInDisplayName = true)
    void oneAfterAnotherAgreesWithTheReference(int first, double estimate, double low, double high, double tauSquared)
            throws java.io.IOException {
        var results = Cumulative.of(VaccineTest.trials(), 0.05);
        assertEquals(13, results.size());
        compare(results.get(first - 1), estimate, low, high, tauSquared);
    }

    @Test
    void nothingIsLeftOfOneStudy() {
        assertEquals(List.of(), LeaveOneOut.of(Invented.studies(1, 1), 0.05));
        var two = LeaveOneOut.of(List.of(new Study(1, 2), new Study(3, 4)), 0.05);
        SUMMED.assertClose(
                new double[] {3, 1}, two.get(0).estimate(), two.get(1).estimate());
    }

    @Test
    void onlySomeSizesCanBeAskedFor() {
        var studies = Invented.studies(30, 2);
        var some = Cumulative.of(studies, List.of(30, 1, 7), 0.05);
        assertEquals(
                List.of(30, 1, 7), some.stream().map(r -> r.studies().size()).toList());
        assertEquals(studies.get(0).estimate(), some.get(1).estimate());
        assertEquals(
                "sizes [0, 31]: expected 1 to 30",
                assertThrows(IllegalArgumentException.class, () -> Cumulative.of(studies, List.of(0, 31), 0.05))
                        .getMessage());
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "small-studies.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 20000)
    void smallStudiesAgreeWithTheReference(
            String name,
            @ConvertWith(Cells.Doubles.class) double[] estimates,
            @ConvertWith(Cells.Doubles.class) double[] variances,
            double intercept,
            double error,
            double t,
            double p) {
        var found = SmallStudies.of(Invented.studies(estimates, variances)).orElseThrow();
        SUMMED.assertClose(
                new double[] {intercept, error, t, p}, found.intercept(), found.standardError(), found.t(), found.p());
        assertEquals(estimates.length - 2, found.degreesOfFreedom(), name);
    }

    @Test
    void smallStudiesAreMissingWhereNothingCanBeTold() {
        assertEquals(Optional.empty(), SmallStudies.of(List.of()));
        assertEquals(Optional.empty(), SmallStudies.of(Invented.studies(2, 1)));
        var oneSize = Invented.studies(new double[] {1, 2, 5}, new double[] {0.3, 0.3, 0.3});
        assertEquals(Optional.empty(), SmallStudies.of(oneSize));
        var alike = Invented.studies(new double[] {0.1, 0.1, 0.1}, new double[] {0.3, 0.7, 0.9});
        assertEquals(Optional.empty(), SmallStudies.of(alike));
    }
}
