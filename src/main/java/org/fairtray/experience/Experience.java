package org.fairtray.experience;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.fairtray.statistics.Interval;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Trial;

/**
 * What a trial teaches about the next one.
 *
 * @param trial its title
 * @param outcome the count it was learned from
 * @param controlTrays trays that got the control; 0 where none did, and the rate is that of all trays
 * @param controlRate of the control, a proportion
 * @param trayCorrelation intraclass correlation of two seeds of one tray; empty where nothing is repeated or trays hold
 *     one seed
 * @param placeSd standard deviation between units of a place level, log-odds, by level; only what the trial can tell
 * @param minutesPerFrame minutes to count one frame once; empty where the readings give no times
 * @param draws sets of rate, correlation and deviations that could have given these readings
 */
public record Experience(
        String trial,
        String outcome,
        int controlTrays,
        Learned controlRate,
        Optional<Learned> trayCorrelation,
        Map<String, Learned> placeSd,
        Optional<Learned> minutesPerFrame,
        List<Draw> draws) {
    /** So many sets say how unsure a figure is. */
    private static final int ENOUGH = 1000;

    /** One set that could have given the readings. */
    public record Draw(double controlRate, double trayCorrelation, Map<String, Double> placeSd) {}

    public Experience {
        placeSd = Collections.unmodifiableMap(new LinkedHashMap<>(placeSd));
        draws = List.copyOf(draws);
    }

    /** What a plan expects, with the best guesses in place of its own; what the trial can't tell stays as it is. */
    public Expectations onto(Trial plan) {
        var sd = new LinkedHashMap<String, Double>();
        placeSd.forEach((level, learned) -> sd.put(level, learned.value()));
        return onto(
                plan,
                new Draw(
                        controlRate.value(), trayCorrelation.map(Learned::value).orElse(0.0), sd));
    }

    /** The same with one of the {@linkplain #draws}. Levels that the plan's place doesn't have are left out. */
    public Expectations onto(Trial plan, Draw draw) {
        var expected = plan.expectations();
        var sd = new LinkedHashMap<>(expected.placeSd());
        draw.placeSd().forEach((level, value) -> {
            if (plan.place().names().contains(level)) {
                sd.put(level, value);
            }
        });
        return new Expectations(
                OptionalDouble.of(draw.controlRate()),
                expected.worthwhile(),
                trayCorrelation.isPresent() ? OptionalDouble.of(draw.trayCorrelation()) : expected.trayCorrelation(),
                sd,
                expected.power());
    }

    /**
     * What several trials teach together: of each figure the middle one, and as likely as each trial has it the sets of all,
     * so that how much farms differ is part of what isn't known.
     *
     * @param name what to call them
     * @param several one or more, of one outcome
     */
    public static Experience together(String name, List<Experience> several) {
        var all = several.stream().flatMap(e -> e.draws().stream()).toList();
        int step = Math.max(1, all.size() / ENOUGH);
        var draws = IntStream.range(0, all.size() / step)
                .mapToObj(i -> all.get(i * step))
                .toList();
        var placeSd = new LinkedHashMap<String, Learned>();
        several.stream()
                .flatMap(e -> e.placeSd().keySet().stream())
                .distinct()
                .forEach(level -> placeSd.put(
                        level,
                        learned(
                                middle(several.stream()
                                        .filter(e -> e.placeSd().containsKey(level))
                                        .mapToDouble(e -> e.placeSd().get(level).value())),
                                draws.stream()
                                        .filter(d -> d.placeSd().containsKey(level))
                                        .toList(),
                                d -> d.placeSd().get(level))));
        var alike =
                several.stream().filter(e -> e.trayCorrelation().isPresent()).toList();
        var minutes =
                several.stream().flatMap(e -> e.minutesPerFrame().stream()).toList();
        return new Experience(
                name,
                several.get(0).outcome(),
                several.stream().mapToInt(Experience::controlTrays).sum(),
                learned(middle(several.stream().mapToDouble(e -> e.controlRate().value())), draws, Draw::controlRate),
                alike.isEmpty()
                        ? Optional.empty()
                        : Optional.of(learned(
                                middle(alike.stream()
                                        .mapToDouble(e -> e.trayCorrelation()
                                                .orElseThrow()
                                                .value())),
                                alike.stream().flatMap(e -> e.draws().stream()).toList(),
                                Draw::trayCorrelation)),
                placeSd,
                minutes.stream().findFirst(),
                draws);
    }

    private static double middle(DoubleStream values) {
        double[] sorted = values.sorted().toArray();
        int half = sorted.length / 2;
        return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
    }

    /** A figure with its likely range: the best guess, and the middle 95 % of the draws. */
    static Learned learned(double value, List<Draw> draws, ToDoubleFunction<Draw> figure) {
        double[] sorted = draws.stream().mapToDouble(figure).sorted().toArray();
        return new Learned(value, new Interval(quantile(sorted, 0.025), quantile(sorted, 0.975)));
    }

    private static double quantile(double[] sorted, double share) {
        return sorted[(int) Math.round(share * (sorted.length - 1))];
    }
}
