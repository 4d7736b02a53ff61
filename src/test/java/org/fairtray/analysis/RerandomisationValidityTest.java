package org.fairtray.analysis;

import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.Trials;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.junit.jupiter.api.Test;

/** Where treatments do nothing, p is at or below 0.05 as often as it should be, however crooked the readings. */
class RerandomisationValidityTest {
    private static final Factor SOAK = factor("soak", "tray", "0", "8");
    private static final Factor MAT = factor("mat", "tray", "hemp", "coir");

    /** How often p came to 0.05 or below in layouts drawn anew, for readings that the layout doesn't change. */
    private static double rejected(int times, Trials plan, String term) {
        var random = new Random(2026);
        long rejected = IntStream.range(0, times)
                .filter(i -> {
                    var trials = plan.drawn(random.nextLong());
                    double[] skewed = IntStream.range(0, trials.layout().trays().size())
                            .mapToDouble(t -> Math.exp(1.5 * random.nextGaussian()))
                            .toArray();
                    var structure = Structure.of(trials.trial(), trials.layout().trays());
                    return Rerandomisations.of(structure, skewed, i).stream()
                            .filter(r -> r.term().equals(term))
                            .allMatch(r -> r.p() <= 0.05);
                })
                .count();
        return (double) rejected / times;
    }

    /** Four standard errors of a share, so that one run in 16,000 would fail by chance; the seeds are fixed. */
    private static void assertNear(double expected, double share, int times) {
        assertEquals(expected, share, 4 * Math.sqrt(expected * (1 - expected) / times));
    }

    @Test
    void withoutBlocks() {
        var plan = Trials.of(place("spot 8"), List.of(SOAK), HEIGHT);
        assertNear(2 / 70.0, rejected(3000, plan, "soak"), 3000);
    }

    @Test
    void inBlocks() {
        var plan = Trials.of(place("block 3", "spot 4"), List.of(SOAK), HEIGHT);
        assertNear(10 / 216.0, rejected(2000, plan, "soak"), 2000);
    }

    @Test
    void inSquares() {
        var plan = Trials.of(
                place("row 4", "column 4 across row"), List.of(factor("mat", "tray", "a", "b", "c", "d")), HEIGHT);
        assertNear(24 / 576.0, rejected(1000, plan, "mat"), 1000);
    }

    /** Two stacks of four on each of two shelves: 36 arrangements that come in pairs, so p is never below 1/18. */
    @Test
    void neverWhereArrangementsAreTooFew() {
        var plan = Trials.of(
                place("shelf 2", "stack 4", "spot 2"), List.of(factor("cover", "stack", "0", "3"), SOAK), HEIGHT);
        assertEquals(0, rejected(300, plan, "cover"));
    }

    @Test
    void drawn() {
        var plan = Trials.of(place("spot 16"), List.of(factor("soak", "tray", "0", "2", "4", "8")), HEIGHT);
        assertNear(0.05, rejected(300, plan, "soak"), 300);
    }

    /** Residuals are exchanged, which is right only about; normal theory is no better for such readings. */
    @Test
    void ofInteractions() {
        var plan = Trials.of(place("spot 8"), List.of(SOAK, MAT), HEIGHT);
        double share = rejected(1000, plan, "soak × mat");
        assertEquals(0.05, share, 0.025);
    }
}
