package org.fairtray.sizing.spending;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.Option;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Spending;
import org.fairtray.sizing.StrataPower;
import org.junit.jupiter.api.Test;

class SizesTest {
    private static final String COSTS =
            ", costs: {currency: EUR, tray: 0.9, seed_per_g: 0.04, labour_per_hour: 15, minutes_per_frame: 2}";

    private static SizedLayout layout(String factors, String place, String more) {
        var plan = "{format: 1, trial: A, crop: {name: beet, thousand_seed_weight_g: 15}, factors: [" + factors
                + "], place: [" + place
                + "], counting: {days: [2, 4, 6], seeds_per_frame: 50}, outcomes: [{name: through, kind: count, day: 6}]"
                + more + "}";
        var trial = TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
        return SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(1)));
    }

    private static SizedLayout mats(String more) {
        return layout("{name: mat, levels: [hemp, coir]}", "{name: spot, count: 24}", more);
    }

    private static final String EXPECT =
            ", expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.04, power: 0.8}";

    private static Spending spending(SizedLayout layout, Limits limits) {
        return Sizes.of(layout, limits, OptionalDouble.empty()).orElseThrow();
    }

    private static Limits money(double money) {
        return new Limits(OptionalDouble.of(money), OptionalDouble.empty(), OptionalDouble.empty());
    }

    /** By hand: 24 trays x (0.90 + 3 days x 2 min x 15/60 + 50 x 0.015 g x 0.04). */
    @Test
    void whatThePlanCosts() {
        var planned = spending(mats(EXPECT + COSTS), Limits.NONE).choices().stream()
                .filter(c -> c.why().startsWith("as planned"))
                .findFirst()
                .orElseThrow();
        assertEquals(24 * (0.9 + 3 * 2 * 15 / 60.0 + 50 * 0.015 * 0.04), planned.cost(), 1e-9);
        assertEquals(48, planned.minutesADay(), 1e-9);
        assertEquals(24 * 0.75, planned.grams(), 1e-9);
    }

    /** Among all numbers of seeds, the variance of a mean for a sum of money is least at the closed-form optimum. */
    @Test
    void bestNumberOfSeedsIsTheOneThatTellsMostForTheMoney() {
        var layout = mats(EXPECT + COSTS);
        double best = spending(layout, Limits.NONE).bestSeeds();
        var costs = new TrayCosts(layout.structure().trial(), OptionalDouble.empty());
        int found = IntStream.rangeClosed(1, 400)
                .boxed()
                .min(Comparator.comparingDouble(m -> (1 + (m - 1) * 0.04) / m * costs.money(new Option(1, 1, m))))
                .orElseThrow();
        assertEquals(found, best, 0.5 + 1e-6);
    }

    @Test
    void moreSeedsAlwaysTellMoreWhereTheyAreNotAlike() {
        var spending = spending(mats(", expect: {control_rate: 0.4, tray_correlation: 0}" + COSTS), Limits.NONE);
        assertEquals(null, spending.bestSeeds());
    }

    @Test
    void noCheaperSizeOnTheListFindsAsMuch() {
        var layout = mats(EXPECT + COSTS);
        var spending = spending(layout, Limits.NONE);
        var cheapest = spending.choices().stream()
                .filter(c -> c.why().contains("cheapest for 80 %"))
                .findFirst()
                .orElseThrow();
        assertTrue(cheapest.power() >= 0.8 && cheapest.fits(), cheapest::toString);
        var costs = new TrayCosts(layout.structure().trial(), OptionalDouble.empty());
        for (int trays = 4; trays <= 24; trays += 2) {
            for (int seeds : new int[] {13, 25, 50, 100, 200}) {
                var option = new Option(trays / 24.0, 1, seeds);
                double power = new StrataPower(layout.tests().get(0), layout.assumptions(), option).power(0.2);
                assertTrue(
                        power < 0.8 || trays * costs.money(option) >= cheapest.cost() - 1e-9,
                        trays + " trays of " + seeds + " seeds");
            }
        }
    }

    @Test
    void cheapestFirstAndOnlyFiveAndWithinLimits() {
        var limits = new Limits(OptionalDouble.of(45), OptionalDouble.of(40), OptionalDouble.of(12));
        var choices = spending(mats(EXPECT + COSTS), limits).choices();
        assertTrue(choices.size() > 1 && choices.size() <= 5, choices::toString);
        for (int i = 1; i < choices.size(); i++) {
            assertTrue(choices.get(i - 1).cost() <= choices.get(i).cost(), choices::toString);
        }
        for (var choice : choices) {
            boolean within =
                    choice.trays() <= 24 && choice.cost() <= 45 && choice.minutesADay() <= 40 && choice.grams() <= 12;
            assertEquals(within, choice.fits(), choice::toString);
        }
    }

    @Test
    void theBudgetIsSpentOnItsLine() {
        var spending = spending(mats(EXPECT + COSTS), money(60));
        assertEquals(spending.curves().size(), spending.budget().size());
        spending.budget().forEach(p -> assertEquals(60, p.cost(), 1e-9));
    }

    @Test
    void whatThePlaceCannotHoldIsSaidToBeBeyondIt() {
        var stacks = layout(
                "{name: cover, levels: [0, 3], applied_to: stack}",
                "{name: stack, count: 4}, {name: spot, count: 4}",
                ", expect: {control_rate: 0.4, worthwhile: 0.15, tray_correlation: 0.05, place_sd: {stack: 0.3}}");
        var beyond = spending(stacks, Limits.NONE).choices().stream()
                .filter(c -> c.why().contains("beyond the limits"))
                .findFirst()
                .orElseThrow();
        assertTrue(!beyond.fits() && beyond.trays() > 16 && beyond.power() >= 0.8, beyond::toString);
    }

    @Test
    void minutesOfAnEarlierTrialReplaceThePlans() {
        var costs = new TrayCosts(mats(EXPECT + COSTS).structure().trial(), OptionalDouble.of(3));
        assertEquals(3, costs.minutes(new Option(1, 1, 50)), 1e-12);
        assertTrue(costs.assumptions().stream()
                .anyMatch(a -> a.key().equals("costs.minutes_per_frame") && a.value() == 3 && !a.planned()));
    }

    @Test
    void nothingIsComparedWhereNothingCanBeTested() {
        var one = layout(
                "{name: cover, levels: [0, 3], applied_to: stack}",
                "{name: stack, count: 2}, {name: spot, count: 4}",
                EXPECT);
        assertTrue(Sizes.of(one, Limits.NONE, OptionalDouble.empty()).isEmpty());
        var impossible = mats(", expect: {control_rate: 0.9, worthwhile: 0.2}");
        assertTrue(Sizes.of(impossible, Limits.NONE, OptionalDouble.empty()).isEmpty());
    }
}
