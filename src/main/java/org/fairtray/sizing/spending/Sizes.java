package org.fairtray.sizing.spending;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.fairtray.sizing.Option;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Spending;
import org.fairtray.sizing.StrataPower;
import org.fairtray.sizing.StratumTest;

/**
 * Holds trials of other sizes against each other: the layout repeated more or less often, more or fewer seeds and frames. The
 * power is the closed form's, of the factor that is hardest to find.
 *
 * <p>The seeds in a tray at which a sum of money tells most of a factor given to trays: √(C/c × (1 − ρ)/ρ), C the cost of a
 * tray without counting seeds, c that of a seed counted. Source: Cochran (1977), Sampling Techniques, section 10.6 (from
 * memory).
 */
public final class Sizes {
    private static final int MOST_STEPS = 60;
    private static final double[] SEEDS = {0.25, 0.5, 1, 2, 4};
    private static final double SURE = 0.95;
    private static final double TOSS = 0.5;

    /** A loss of power that nobody would notice. */
    private static final double NO_MATTER = 0.02;

    private final SizedLayout layout;
    private final Limits limits;
    private final TrayCosts costs;
    private final List<StratumTest> factors;
    private final int trays;
    private final int sets;

    private Sizes(SizedLayout layout, Limits limits, OptionalDouble minutesLearned) {
        var trial = layout.structure().trial();
        this.layout = layout;
        this.limits = limits;
        this.costs = new TrayCosts(trial, minutesLearned);
        this.factors = layout.tests().stream().filter(t -> t.term().isMain()).toList();
        this.trays = layout.structure().trays().size();
        this.sets = (int) layout.structure().trays().stream()
                .map(t -> t.treatment())
                .distinct()
                .count();
    }

    /**
     * Compares sizes.
     *
     * @param minutesLearned minutes for a frame from an earlier trial, if there is one that tells
     * @return empty where nothing can be worked out: no factor that can be tested, or a rate of 0 or 1
     */
    public static Optional<Spending> of(SizedLayout layout, Limits limits, OptionalDouble minutesLearned) {
        var sizes = new Sizes(layout, limits, minutesLearned);
        return sizes.factors.isEmpty() || !layout.assumptions().possible()
                ? Optional.empty()
                : Optional.of(sizes.spending());
    }

    private Spending spending() {
        var planned = layout.option();
        var curves =
                seedsPerFrame().stream().map(s -> curve(planned.withSeeds(s))).toList();
        return new Spending(
                hardest(planned).term().name(),
                costs.currency(),
                orNull(limits.money()),
                orNull(limits.minutesADay()),
                orNull(limits.grams()),
                places(),
                bestSeeds(planned),
                curves,
                limits.money().isPresent()
                        ? seedsPerFrame().stream()
                                .map(s -> spent(
                                        planned.withSeeds(s), limits.money().getAsDouble()))
                                .toList()
                        : List.of(),
                choices(),
                costs.assumptions(),
                List.of(
                        "Seeds of one frame are taken to be no more alike than seeds of one tray: a frame more costs time and"
                                + " tells what as many seeds more in the first would. In trays that are uneven, several frames are"
                                + " fairer.",
                        "Sizes between what fits evenly are interpolated; lay says what does."));
    }

    private static Double orNull(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }

    private int places() {
        return layout.structure().trial().place().trays();
    }

    private StratumTest hardest(Option option) {
        return factors.stream()
                .min(Comparator.comparingDouble(t -> power(t, option)))
                .orElseThrow();
    }

    private double power(StratumTest test, Option option) {
        return new StrataPower(test, layout.assumptions(), option)
                .power(layout.assumptions().worthwhile());
    }

    private double power(Option option) {
        return factors.stream().mapToDouble(t -> power(t, option)).min().orElseThrow();
    }

    private Double bestSeeds(Option planned) {
        double alike = layout.assumptions().trayCorrelation();
        double seed = costs.moneyPerSeed();
        return alike > 0 && seed > 0
                ? Math.max(1, Math.sqrt(costs.moneyWithoutSeeds(planned) / seed * (1 - alike) / alike))
                : null;
    }

    private List<Integer> seedsPerFrame() {
        var seeds = new TreeSet<Integer>();
        for (double part : SEEDS) {
            seeds.add((int) Math.max(1, Math.round(part * layout.option().seedsPerFrame())));
        }
        return List.copyOf(seeds);
    }

    /** Numbers of trays in full sets: two sets at the least, and up to twice the place or what the question needs. */
    private List<Integer> numbersOfTrays() {
        int needed = factors.stream()
                .mapToInt(t -> new StrataPower(t, layout.assumptions(), layout.option())
                                .unitsNeeded(
                                        layout.assumptions().worthwhile(),
                                        layout.assumptions().power(),
                                        SizedLayout.MOST_TIMES)
                                .stream()
                                .map(u -> (int) Math.ceil(u * trays / t.unitsPerLevel()))
                                .findFirst()
                                .orElse(0))
                .max()
                .orElse(0);
        int most = Math.max(2 * places(), needed) / sets + 1;
        int step = Math.max(1, most / MOST_STEPS);
        var numbers = new TreeSet<>(IntStream.rangeClosed(2, most)
                .filter(r -> (r - 2) % step == 0)
                .mapToObj(r -> r * sets)
                .toList());
        numbers.add(trays);
        numbers.add(places() / sets * sets);
        numbers.remove(0);
        return List.copyOf(numbers);
    }

    private Spending.Curve curve(Option option) {
        return new Spending.Curve(
                option.frames(),
                option.seedsPerFrame(),
                numbersOfTrays().stream().map(n -> point(n, option)).toList());
    }

    private Spending.Point point(double number, Option option) {
        return new Spending.Point(number, power(option.repeated(number / trays)), number * costs.money(option));
    }

    private Spending.Point spent(Option option, double money) {
        return point(money / costs.money(option), option);
    }

    private List<Spending.Choice> choices() {
        var all = new ArrayList<Spending.Choice>();
        var frames = new TreeSet<>(List.of(1, 2, layout.option().frames()));
        for (int f : frames) {
            for (int s : seedsPerFrame()) {
                for (int n : numbersOfTrays()) {
                    all.add(choice(n, new Option((double) n / trays, f, s), ""));
                }
            }
        }
        double wanted = layout.assumptions().power();
        Map<List<Integer>, Spending.Choice> chosen = new LinkedHashMap<>();
        add(chosen, choice(trays, layout.option(), "as planned"));
        boolean found = cheapest(all, wanted, true)
                .map(c -> add(chosen, because(c, "cheapest for " + percent(wanted))))
                .orElse(false);
        if (!found) {
            double most = all.stream()
                    .filter(Spending.Choice::fits)
                    .mapToDouble(Spending.Choice::power)
                    .max()
                    .orElse(0);
            cheapest(all, most - NO_MATTER, true).ifPresent(c -> add(chosen, because(c, "most within the limits")));
            cheapest(all, wanted, false)
                    .ifPresent(c -> add(chosen, because(c, percent(wanted) + ", beyond the limits")));
        }
        cheapest(all, SURE, true).ifPresent(c -> add(chosen, because(c, "cheapest for " + percent(SURE))));
        cheapest(all, TOSS, true).ifPresent(c -> add(chosen, because(c, "cheapest for " + percent(TOSS))));
        double between = (1 + wanted) / 2;
        cheapest(all, between, true).ifPresent(c -> add(chosen, because(c, "cheapest for " + percent(between))));
        return chosen.values().stream()
                .limit(5)
                .sorted(Comparator.comparingDouble(Spending.Choice::cost))
                .toList();
    }

    private static boolean add(Map<List<Integer>, Spending.Choice> chosen, Spending.Choice choice) {
        chosen.merge(
                List.of(choice.trays(), choice.frames(), choice.seedsPerFrame()),
                choice,
                (first, second) -> because(first, first.why() + "; " + second.why()));
        return true;
    }

    private static Optional<Spending.Choice> cheapest(List<Spending.Choice> all, double power, boolean fitting) {
        return all.stream()
                .filter(c -> c.power() >= power && (c.fits() || !fitting))
                .min(Comparator.comparingDouble(Spending.Choice::cost));
    }

    private static Spending.Choice because(Spending.Choice choice, String why) {
        return new Spending.Choice(
                choice.trays(),
                choice.frames(),
                choice.seedsPerFrame(),
                choice.power(),
                choice.cost(),
                choice.minutesADay(),
                choice.grams(),
                choice.fits(),
                why);
    }

    private Spending.Choice choice(int number, Option option, String why) {
        double money = number * costs.money(option);
        double minutes = number * costs.minutes(option);
        var grams = costs.grams(option);
        boolean fits = number <= places()
                && Limits.within(limits.money(), money)
                && Limits.within(limits.minutesADay(), minutes)
                && (grams.isEmpty() || Limits.within(limits.grams(), number * grams.getAsDouble()));
        return new Spending.Choice(
                number,
                option.frames(),
                option.seedsPerFrame(),
                power(option),
                money,
                minutes,
                grams.isPresent() ? Double.valueOf(number * grams.getAsDouble()) : null,
                fits,
                why);
    }

    private static String percent(double share) {
        return Math.round(100 * share) + " %";
    }
}
