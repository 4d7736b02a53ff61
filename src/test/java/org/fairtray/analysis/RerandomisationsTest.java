package org.fairtray.analysis;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Tolerance.SUMMED;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CancellationException;
import java.util.function.Function;
import java.util.stream.IntStream;
import org.fairtray.Trials;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Rerandomised;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;

class RerandomisationsTest {
    private static final Factor SOAK = factor("soak", "tray", "0", "8");
    private static final Factor MAT = factor("mat", "tray", "hemp", "coir");
    private static final Factor COVER = factor("cover", "stack", "0", "3");
    private static final Function<Tray, String> CODE = Tray::code;

    private static Structure structure(Trials trials) {
        return Structure.of(trials.trial(), trials.layout().trays());
    }

    private static double[] values(Trials trials, long seed) {
        var random = new Random(seed);
        return trials.layout().trays().stream()
                .mapToDouble(t -> 20
                        + ("8".equals(t.treatment().level("soak")) ? 2 : 0)
                        + ("3".equals(t.treatment().level("cover")) ? 3 : 0)
                        + 2 * random.nextGaussian())
                .toArray();
    }

    private static Rerandomised test(Trials trials, String term, double[] values) {
        return Rerandomisations.of(structure(trials), values, 1).stream()
                .filter(r -> r.term().equals(term))
                .findFirst()
                .orElseThrow();
    }

    private static String stand(Tray tray, int levels) {
        return tray.stand().at().subList(0, levels).toString();
    }

    /** All arrangements against the same layouts written out and analysed one by one. */
    private static void agrees(
            int arrangements,
            Trials trials,
            String factor,
            Function<Tray, String> unit,
            Function<Tray, String> group,
            long seed) {
        double[] values = values(trials, seed);
        var relabelled = new Relabelled(trials, factor);
        var all = relabelled.within(unit, group);
        assertEquals(arrangements, all.size());
        var found = test(trials, factor, values);
        assertEquals("permuted", found.scheme());
        assertTrue(found.exact());
        assertEquals(arrangements, found.arrangements());
        CLOSED_FORM.assertClose(relabelled.share(all, unit, values), found.p());
    }

    @Test
    void allLayoutsWithoutBlocksAreTried() {
        var trials = Trials.of(place("spot 8"), List.of(SOAK), HEIGHT).drawn(1);
        agrees(70, trials, "soak", CODE, t -> "", 1);
        agrees(70, trials, "soak", CODE, t -> "", 2);
    }

    @Test
    void treatmentsStayInTheirBlocks() {
        var trials =
                Trials.of(place("block 3", "spot 4"), List.of(SOAK), HEIGHT).drawn(2);
        agrees(216, trials, "soak", CODE, t -> stand(t, 1), 3);
    }

    @Test
    void theOtherFactorStaysWhereItIs() {
        var trials = Trials.of(place("block 2", "spot 8"), List.of(SOAK, MAT), HEIGHT)
                .drawn(3);
        agrees(1296, trials, "soak", CODE, t -> stand(t, 1) + t.treatment().level("mat"), 4);
    }

    @Test
    void wholeStacksMoveWithWhatIsInThem() {
        var trials = Trials.of(place("shelf 2", "stack 4", "spot 2"), List.of(COVER, SOAK), HEIGHT)
                .drawn(4);
        agrees(36, trials, "cover", t -> stand(t, 2), t -> stand(t, 1), 5);
        agrees(256, trials, "soak", CODE, t -> stand(t, 2), 6);
    }

    @Test
    void aTrayIsMissing() {
        var trials = Trials.of(place("shelf 2", "stack 4", "spot 2"), List.of(COVER, SOAK), HEIGHT)
                .drawn(4)
                .keeping(t -> !t.code().equals("T05"));
        agrees(128, trials, "soak", CODE, t -> stand(t, 2), 6);
    }

    @Test
    void everySquareIsTried() {
        var mats = factor("mat", "tray", "a", "b", "c", "d");
        var trials = Trials.of(place("row 4", "column 4 across row"), List.of(mats), HEIGHT)
                .drawn(5);
        double[] values = values(trials, 7);
        var relabelled = new Relabelled(trials, "mat");
        var squares = relabelled.within(CODE, t -> stand(t, 1)).stream()
                .filter(given -> isEvenByColumn(trials, given))
                .toList();
        assertEquals(576, squares.size());
        var found = test(trials, "mat", values);
        assertEquals("redrawn", found.scheme());
        assertEquals(576, found.arrangements());
        CLOSED_FORM.assertClose(relabelled.share(squares, CODE, values), found.p());
    }

    private static boolean isEvenByColumn(Trials trials, Map<String, String> given) {
        return trials.layout().trays().stream()
                        .map(t -> t.stand().at().get(1) + given.get(t.code()))
                        .distinct()
                        .count()
                == 16;
    }

    @Test
    void drawnSquaresComeNearAllSquares() {
        var mats = factor("mat", "tray", "a", "b", "c", "d", "e");
        var trials = Trials.of(place("row 5", "column 5 across row"), List.of(mats), HEIGHT)
                .drawn(5);
        double[] values = values(trials, 8);
        var found = test(trials, "mat", values);
        assertEquals("redrawn", found.scheme());
        assertFalse(found.exact());
        assertEquals(9999, found.arrangements());
        double byModel = modelP(trials, "mat", values);
        assertEquals(byModel, found.p(), 0.03, "normal readings: F's own p is near");
    }

    private static double modelP(Trials trials, String factor, double[] values) {
        return AnovaPart.of(structure(trials), values).findings("raw").strata().stream()
                .flatMap(s -> s.terms().stream())
                .filter(t -> t.term().equals(factor))
                .findFirst()
                .orElseThrow()
                .p();
    }

    /** Freedman and Lane by hand: residuals of row and column means of a 2 by 2 table, in all 40320 orders. */
    @Test
    void residualsAreExchangedForAnInteraction() {
        var trials = Trials.of(place("spot 8"), List.of(SOAK, MAT), HEIGHT).drawn(6);
        double[] values = values(trials, 9);
        double[] additive = additive(trials, values);
        var structure = structure(trials);
        var term = new Term(List.of("soak", "mat"));
        double observed = AnovaPart.of(structure, values).ratio(term, 0).orElseThrow();
        var orders = Relabelled.orders(8);
        long reached = orders.stream()
                .filter(order -> {
                    double[] again = IntStream.range(0, 8)
                            .mapToDouble(i -> additive[i] + values[order[i]] - additive[order[i]])
                            .toArray();
                    return AnovaPart.of(structure, again).ratio(term, 0).orElseThrow() >= observed * (1 - 1e-9);
                })
                .count();
        var found = test(trials, "soak × mat", values);
        assertEquals("residuals", found.scheme());
        assertEquals(2520, found.arrangements(), "8!/(2! 2! 2! 2!)");
        CLOSED_FORM.assertClose(reached / 40320.0, found.p());
        assertEquals(
                "What the model without soak × mat leaves over was exchanged among single trays (Freedman and Lane"
                        + " 1983): all 2,520 arrangements were tried.",
                found.sentence());
    }

    private static double[] additive(Trials trials, double[] values) {
        double mean = Arrays.stream(values).average().orElseThrow();
        return IntStream.range(0, values.length)
                .mapToDouble(i -> mean(trials, values, i, "soak") + mean(trials, values, i, "mat") - mean)
                .toArray();
    }

    private static double mean(Trials trials, double[] values, int tray, String factor) {
        var trays = trials.layout().trays();
        String level = trays.get(tray).treatment().level(factor);
        return IntStream.range(0, values.length)
                .filter(i -> trays.get(i).treatment().level(factor).equals(level))
                .mapToDouble(i -> values[i])
                .average()
                .orElseThrow();
    }

    @Test
    void residualsStandInWhereTooFewLayoutsAreLeft() {
        var trials = Trials.of(place("block 2", "spot 4"), List.of(SOAK, MAT), HEIGHT)
                .drawn(7);
        var found = test(trials, "soak", values(trials, 10));
        assertEquals("residuals", found.scheme());
        assertEquals(576, found.arrangements(), "(4!)² orders; the other way there are 2⁴");
        CLOSED_FORM.assertClose(2 / 576.0, found.smallestP());
    }

    @Test
    void saysWhereNothingCouldHaveBeenShown() {
        var trials = Trials.of(place("stack 4", "spot 2"), List.of(COVER, SOAK), HEIGHT)
                .drawn(8);
        var found = test(trials, "cover", values(trials, 11));
        assertEquals(6, found.arrangements());
        CLOSED_FORM.assertClose(1 / 3.0, found.smallestP());
        assertEquals(
                "The levels of cover were exchanged among whole units of stack: all 6 arrangements were tried. With so"
                        + " few, p can't fall below 0.33, whatever the readings.",
                found.sentence());
    }

    @Test
    void observedIsTheFOfTheAnalysis() {
        for (var kind : Trials.kinds()) {
            var trials = kind.drawn(9).keeping(t -> !t.code().equals("T02"));
            double[] values = values(trials, 12);
            var structure = structure(trials);
            var anova = AnovaPart.of(structure, values);
            for (var found : Rerandomisations.of(structure, values, 1)) {
                var term = new Term(found.factors());
                int s = structure.testedIn(term).orElseThrow();
                var ratio = structure
                        .decomposition()
                        .ratio(s, structure.terms().indexOf(term))
                        .orElseThrow();
                double f = anova.ratio(term, s).orElseThrow();
                CLOSED_FORM.assertClose(f, found.observed());
                SUMMED.assertClose(f, ratio.of(ratio.unitValues(values)));
                SUMMED.assertClose(f, ratio.of(ratio.unitResiduals(values)));
                assertTrue(found.p() >= found.smallestP() * (1 - 1e-12), found::toString);
            }
        }
    }

    @Test
    void nothingToTestIsNotTested() {
        var trials = Trials.of(place("spot 8"), List.of(SOAK), HEIGHT).drawn(1);
        assertEquals(List.of(), Rerandomisations.of(structure(trials), new double[8], 1));
        var pair = Trials.of(place("spot 2"), List.of(SOAK), HEIGHT).drawn(1);
        assertEquals(List.of(), Rerandomisations.of(structure(pair), new double[] {1, 2}, 1));
        var one = pair.keeping(t -> t.code().equals("T01"));
        assertEquals(List.of(), Rerandomisations.of(structure(one), new double[] {1}, 1));
    }

    private static Trials twentyFour() {
        return Trials.of(place("block 4", "spot 6"), List.of(factor("soak", "tray", "0", "4", "8"), MAT), HEIGHT)
                .drawn(10);
    }

    /** Pinned when first made: the same seed gives the same p anywhere. */
    @Test
    void theSameSeedGivesTheSameP() {
        var trials = twentyFour();
        double[] values = values(trials, 13);
        var found = Rerandomisations.of(structure(trials), values, 1);
        assertEquals(
                List.of(9999, 4096, 9999),
                found.stream().map(Rerandomised::arrangements).toList());
        assertEquals(
                List.of(0.0279, 312 / 4096.0, 0.1007),
                found.stream().map(Rerandomised::p).toList());
        assertEquals(found, Rerandomisations.of(structure(trials), values, 1));
    }

    @Test
    void tellsHowFarItIs() {
        var trials = twentyFour();
        var seen = new ArrayList<Integer>();
        Rerandomisations.of(structure(trials), values(trials, 14), 1, seen::add);
        assertEquals(0, seen.get(0));
        assertEquals(seen.stream().sorted().distinct().toList(), seen);
        assertEquals(40 + 16 + 40, seen.size(), "every 256 of 9999, 4096 and 9999");
    }

    @Test
    void stopsWhenInterrupted() {
        var trials = twentyFour();
        double[] values = values(trials, 15);
        var structure = structure(trials);
        var stopped = assertThrows(
                CancellationException.class,
                () -> Rerandomisations.of(structure, values, 1, done -> {
                    if (done >= 512) {
                        Thread.currentThread().interrupt();
                    }
                }));
        assertTrue(Thread.interrupted(), "the thread still knows");
        assertEquals("interrupted after 512 arrangements", stopped.getMessage());
    }
}
