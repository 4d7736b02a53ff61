package org.fairtray.statistics.pooling;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Interval;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What must hold whatever the studies are. */
class PoolingLawsTest {
    /** A root to its last digits from sums in another order. */
    private static final Tolerance OF_ROOT = new Tolerance(1e-8);

    private static double[] numbers(RandomEffects pooled) {
        var interval = pooled.tauSquaredInterval().orElse(new Interval(0, 0));
        var prediction = pooled.prediction().orElseThrow();
        return new double[] {
            pooled.estimate(),
            pooled.low(),
            pooled.high(),
            prediction.low(),
            prediction.high(),
            pooled.standardError().orElseThrow(),
            pooled.plainStandardError(),
            pooled.tauSquared().orElseThrow(),
            interval.low(),
            interval.high(),
            pooled.p(),
            pooled.q().orElseThrow(),
            pooled.qP().orElseThrow(),
            pooled.iSquared().orElseThrow(),
            pooled.iSquaredFromQ().orElseThrow()
        };
    }

    private static final int PLACES = 5;
    private static final int ERRORS = 7;
    private static final int SQUARES = 10;

    private static void compare(double[] expected, double[] actual) {
        for (int i = 0; i < expected.length; i++) {
            OF_ROOT.assertClose(expected[i], actual[i], Math.max(1, Math.abs(expected[i])));
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {2, 3, 7, 40})
    void theOrderOfStudiesDoesNotMatter(int count) {
        for (long seed = 1; seed <= 30; seed++) {
            var studies = new ArrayList<>(Invented.studies(count, seed));
            var before = numbers(RandomEffects.of(studies, 0.05));
            Collections.shuffle(studies, new Random(seed));
            compare(before, numbers(RandomEffects.of(studies, 0.05)));
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {-3, 17, 1e4})
    void addingTheSameToAllMovesTheResult(double added) {
        for (long seed = 1; seed <= 30; seed++) {
            var studies = Invented.studies(6, seed);
            var expected = numbers(RandomEffects.of(studies, 0.05));
            var moved = RandomEffects.of(Invented.changed(studies, y -> y + added, 1), 0.05);
            var actual = numbers(moved);
            for (int i = 0; i < PLACES; i++) {
                expected[i] += added;
            }
            expected[SQUARES] = actual[SQUARES];
            compare(expected, actual);
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-6, 0.01, 100, 1e6})
    void anotherUnitScalesTheResult(double times) {
        for (long seed = 1; seed <= 30; seed++) {
            var studies = Invented.studies(6, seed);
            var expected = numbers(RandomEffects.of(studies, 0.05));
            var actual = numbers(RandomEffects.of(Invented.changed(studies, y -> times * y, times * times), 0.05));
            for (int i = 0; i < SQUARES; i++) {
                actual[i] /= i < ERRORS ? times : times * times;
            }
            compare(expected, actual);
        }
    }

    @Test
    void turningAllRoundTurnsTheResult() {
        var studies = Invented.studies(9, 4);
        var pooled = RandomEffects.of(studies, 0.05);
        var turned = RandomEffects.of(Invented.changed(studies, y -> -y, 1), 0.05);
        SUMMED.assertClose(-pooled.high(), turned.low());
        SUMMED.assertClose(
                pooled.tauSquared().orElseThrow(), turned.tauSquared().orElseThrow());
    }

    /** The slope of the likelihood, written out, is 0 at the top, and neighbours are lower; at 0 it falls. */
    @Test
    void theVarianceBetweenIsATop() {
        for (long seed = 1; seed <= 200; seed++) {
            var studies = Invented.studies(2 + (int) (seed % 9), seed);
            double top = RandomEffects.of(studies, 0.05).tauSquared().orElseThrow();
            double height = likelihood(studies, top);
            for (int place = 0; place <= 400; place++) {
                double other = Math.pow(10, -4 + place / 80.0);
                assertTrue(likelihood(studies, other) <= height + 1e-9, "seed " + seed + " at " + other);
            }
            assertTrue(likelihood(studies, 0) <= height + 1e-9, "seed " + seed + " at 0");
        }
    }

    private static double likelihood(List<Study> studies, double tauSquared) {
        double weights = 0;
        double sum = 0;
        double logs = 0;
        for (var study : studies) {
            double weight = 1 / (study.variance() + tauSquared);
            weights += weight;
            sum += weight * study.estimate();
            logs += Math.log(weight);
        }
        double mean = sum / weights;
        double q = studies.stream()
                .mapToDouble(s -> Math.pow(s.estimate() - mean, 2) / (s.variance() + tauSquared))
                .sum();
        return (logs - Math.log(weights) - q) / 2;
    }

    /**
     * R 4.2.2, i from 1 to 10,000, y = 0.3 + 0.4 sin(i) + 0.2 sin(3 i), v = 0.02 exp(3 sin(2 i + 1)): uniroot(tol = 1e-15) of the
     * slope of the restricted likelihood, and of sum(w * (y - mu)^2) less qchisq(c(0.975, 0.025), 9999). The same lines agree with
     * metafor 3.8.1 to 12 digits for the first 300 of them; for all of them it wants matrices of 10,000 rows and columns.
     */
    @Test
    void tenThousandStudiesAgreeWithTheReference() {
        var studies = IntStream.rangeClosed(1, 10_000)
                .mapToObj(i -> new Study(
                        0.3 + 0.4 * Math.sin(i) + 0.2 * Math.sin(3.0 * i), 0.02 * Math.exp(3 * Math.sin(2.0 * i + 1))))
                .toList();
        var pooled = RandomEffects.of(studies, 0.05);
        assertTrue(pooled.settled());
        var interval = pooled.tauSquaredInterval().orElseThrow();
        ITERATED.assertClose(
                new double[] {
                    0.30009002773932525,
                    0.003206148165667899,
                    0.0035272686570252468,
                    0.08378209832096764,
                    205274.01111202,
                    0.06393326403815727,
                    0.06850626522733275
                },
                pooled.estimate(),
                pooled.standardError().orElseThrow(),
                pooled.plainStandardError(),
                pooled.tauSquared().orElseThrow(),
                pooled.q().orElseThrow(),
                interval.low(),
                interval.high());
    }
}
