package org.fairtray.sizing.simulation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BetaBinomialCountsTest {
    private static final double JUST = 1e-9;

    /** Binomial with 4 trials and rate 1/2: 1, 4, 6, 4, 1 sixteenths; cumulative 1, 5, 11, 15, 16. */
    @ParameterizedTest
    @CsvSource({"0, 1, 0", "1, 5, 1", "5, 11, 2", "11, 15, 3", "15, 16, 4"})
    void binomialProbabilitiesAreExact(int from, int to, int count) {
        var counts = new BetaBinomialCounts(4, 0);
        assertEquals(count, counts.at(0.5, from / 16.0 + JUST));
        assertEquals(count, counts.at(0.5, to / 16.0 - JUST));
    }

    /** Correlation 1/3 at rate 1/2 is the beta distribution with parameters 1 and 1: every count is as likely. */
    @Test
    void withAUniformRateEveryCountIsAsLikely() {
        var counts = new BetaBinomialCounts(9, 1.0 / 3);
        for (int k = 0; k < 10; k++) {
            assertEquals(k, counts.at(0.5, k / 10.0 + JUST));
            assertEquals(k, counts.at(0.5, (k + 1) / 10.0 - JUST));
        }
    }

    /** Mean n p and variance n p (1 - p) (1 + (n - 1) rho), summed over evenly spread uniform numbers. */
    @ParameterizedTest
    @CsvSource({
        "100, 0.4, 0.05",
        "100, 0.4, 0",
        "50, 0.02, 0.1",
        "50, 0.97, 0.3",
        "20, 0.5, 0.8",
        "10000, 0.3, 0.01",
        "10000, 0.5, 0",
        "1, 0.7, 0.2"
    })
    void meanAndVarianceAreThose(int trials, double rate, double correlation) {
        var counts = new BetaBinomialCounts(trials, correlation);
        int points = 20_000;
        double sum = 0;
        double squares = 0;
        for (int i = 0; i < points; i++) {
            double count = counts.at(rate, (i + 0.5) / points);
            sum += count;
            squares += count * count;
        }
        double variance = trials * rate * (1 - rate) * (1 + (trials - 1) * correlation);
        assertEquals(trials * rate, sum / points, 0.003 * Math.sqrt(variance));
        double mean = sum / points;
        assertEquals(1, (squares / points - mean * mean) / variance, 0.01);
    }

    @Test
    void theCountNeverFallsAsTheRateOrTheNumberRises() {
        for (double correlation : new double[] {0, 0.02, 0.4, 0.9}) {
            var counts = new BetaBinomialCounts(30, correlation);
            for (int u = 0; u < 50; u++) {
                int before = 0;
                for (int r = 0; r <= 100; r++) {
                    int now = counts.at(r / 100.0, u / 50.0);
                    assertTrue(now >= before, "rate " + r + ", number " + u);
                    assertTrue(now <= counts.at(r / 100.0, (u + 0.99) / 50.0));
                    before = now;
                }
            }
        }
    }

    @Test
    void endsAreExact() {
        var counts = new BetaBinomialCounts(7, 0.1);
        assertEquals(0, counts.at(0, 0.999999));
        assertEquals(7, counts.at(1, 0));
        assertEquals(0, counts.at(0.5, 0));
        assertEquals(7, counts.at(0.5, Math.nextDown(1.0)));
    }
}
