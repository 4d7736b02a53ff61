package org.fairtray.analysis;

import static org.fairtray.Tolerance.CLOSED_FORM;
import static org.fairtray.Trials.SEEDS;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.Trials;
import org.fairtray.findings.Cost;
import org.fairtray.findings.Findings.CountSummary;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

/** Costs worked out by hand, of invented prices. */
class CostingTest {
    private static final Outcome THROUGH = new Outcome.Count("through", "sown", 2);
    private static final OptionalDouble NONE = OptionalDouble.empty();
    private static final Costs ALL = costs(OptionalDouble.of(0.8), OptionalDouble.of(0.05), OptionalDouble.of(16));

    private static Costs costs(OptionalDouble tray, OptionalDouble seed, OptionalDouble labour) {
        return new Costs(Optional.of("EUR"), tray, seed, labour, OptionalDouble.of(1.5));
    }

    /** Twelve trays of two frames of 50 seeds, looked at on days 1 to 3; a thousand seeds weigh 15 g. */
    private static Trial trial(Optional<Costs> costs, Outcome... outcomes) {
        var plain = Trials.of(place("spot 12"), List.of(factor("soak", "tray", "0", "8")), outcomes)
                .trial();
        var beet = new Crop("beet", Optional.empty(), OptionalDouble.of(15), OptionalInt.empty());
        return new Trial(
                plain.title(),
                plain.question(),
                Optional.of(beet),
                plain.factors(),
                plain.control(),
                plain.never(),
                plain.place(),
                plain.definitions(),
                plain.batches(),
                plain.replicates(),
                new Counting(List.of(1, 2, 3), 2, SEEDS, true),
                plain.outcomes(),
                plain.choices(),
                plain.expectations(),
                costs,
                plain.gramsPerTray(),
                plain.rotation(),
                plain.uncoverDay(),
                plain.restrictions(),
                plain.conditions());
    }

    /** Three trays of 100 seeds each. */
    private static CountSummary summary(long through, double low, double high) {
        return new CountSummary(Map.of("soak", "8"), 3, through, 300, through / 300.0, low, high, "wilson", 1.0);
    }

    private static Cost cost(Costs costs, CountSummary summary) {
        return Costing.of(trial(Optional.of(costs), THROUGH), THROUGH, List.of(summary))
                .get(0);
    }

    /**
     * A tray 0.80; 100 seeds of 15 g a thousand at 0.05 a gram, 0.075; two frames looked at on days 1 and 2 (day 3 is after
     * the outcome's) for 1.5 minutes each at 16 an hour, 1.60. So 2.475 for 45 seedlings: 55 a thousand, between 2.475 / 50
     * and 2.475 / 40 each.
     */
    @Test
    void aThousandSeedlingsCostTrayAndSeedAndLabour() {
        var cost = cost(ALL, summary(135, 0.4, 0.5));
        assertEquals(Map.of("soak", "8"), cost.treatment());
        assertEquals("EUR", cost.currency());
        CLOSED_FORM.assertClose(
                new double[] {2.475, 45, 55, 49.5, 61.875},
                cost.perTray(),
                cost.seedlingsPerTray(),
                cost.perThousand(),
                cost.low(),
                cost.high());
    }

    @Test
    void whatThePlanDoesNotGiveIsNotInIt() {
        var summary = summary(135, 0.4, 0.5);
        CLOSED_FORM.assertClose(
                0.8, cost(costs(OptionalDouble.of(0.8), NONE, NONE), summary).perTray());
        CLOSED_FORM.assertClose(
                0.075, cost(costs(NONE, OptionalDouble.of(0.05), NONE), summary).perTray());
        CLOSED_FORM.assertClose(
                1.6, cost(costs(NONE, NONE, OptionalDouble.of(16)), summary).perTray());
        CLOSED_FORM.assertClose(
                0, cost(costs(OptionalDouble.of(0), NONE, NONE), summary).perThousand());
    }

    @Test
    void whereNothingCameOutThereIsNoPriceButALeastOne() {
        var cost = cost(ALL, summary(0, 0, 0.0125));
        assertEquals(0, cost.seedlingsPerTray());
        assertNull(cost.perThousand());
        assertNull(cost.high());
        CLOSED_FORM.assertClose(1980, cost.low());
    }

    @Test
    void aRateThatMayBeNothingHasNoHighestPrice() {
        var cost = cost(ALL, summary(1, 0, 0.02));
        CLOSED_FORM.assertClose(7425, cost.perThousand());
        assertNull(cost.high());
    }

    @Test
    void noneWithoutCostsOrOfAnythingButSeedsSown() {
        var summaries = List.of(summary(135, 0.4, 0.5));
        var ofGerminated = new Outcome.Count("through", "germinated", 2);
        var free = costs(NONE, NONE, NONE);
        assertEquals(List.of(), Costing.of(trial(Optional.empty(), THROUGH), THROUGH, summaries));
        assertEquals(List.of(), Costing.of(trial(Optional.of(ALL), ofGerminated), ofGerminated, summaries));
        assertEquals(List.of(), Costing.of(trial(Optional.of(ALL), Trials.HEIGHT), Trials.HEIGHT, List.of()));
        assertEquals(List.of(), Costing.of(trial(Optional.of(free), THROUGH), THROUGH, summaries));
    }

    /** From readings to prices: the costs stand on the same rates and intervals as the summary. */
    @Test
    void pricesStandOnTheRatesOfTheAnalysis() {
        var trial = trial(Optional.of(costs(OptionalDouble.of(2), NONE, NONE)), Trials.THROUGH);
        var trials = new Trials(trial, new Layout(List.of()), List.of()).drawn(1);
        var read =
                trials.read(t -> Map.of("through", t.treatment().level("soak").equals("8") ? 25.0 : 0.0));
        var outcome = read.findings().outcomes().get(0);
        assertEquals(2, outcome.costs().size());
        for (int i = 0; i < 2; i++) {
            var rate = (CountSummary) outcome.summary().get(i);
            var cost = outcome.costs().get(i);
            assertEquals(rate.treatment(), cost.treatment());
            CLOSED_FORM.assertClose(20 / rate.high(), cost.low());
            if (rate.treatment().get("soak").equals("8")) {
                CLOSED_FORM.assertClose(40, cost.perThousand());
                CLOSED_FORM.assertClose(20 / rate.low(), cost.high());
                assertTrue(cost.low() < 40 && 40 < cost.high());
            } else {
                assertNull(cost.perThousand());
                assertNull(cost.high());
            }
        }
    }
}
