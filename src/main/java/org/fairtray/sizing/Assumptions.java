package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.fairtray.findings.Words;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/**
 * Everything that sizing takes for granted of a trial: what the plan's {@code expect} says, and where it is silent what is
 * usual, each number with its source.
 *
 * @param controlRate the rate of everything that does nothing
 * @param worthwhile how much higher the rate of what does something is
 * @param trayCorrelation intraclass correlation of the seeds of a tray, in [0, 1)
 * @param placeSd standard deviation of the units of a place level, log-odds, by level
 * @param power the power wanted, in (0, 1)
 * @param choices how the trial will be analysed
 * @param sources every number with where it comes from
 */
public record Assumptions(
        double controlRate,
        double worthwhile,
        double trayCorrelation,
        Map<String, Double> placeSd,
        double power,
        AnalysisChoices choices,
        List<Assumption> sources) {
    private static final Assumption CONTROL_RATE = Assumption.usual(
            "control_rate", 0.5, "the most cautious: p(1 − p), and with it the spread of counts, is largest at 0.5");
    private static final Assumption WORTHWHILE =
            Assumption.usual("worthwhile", 0.15, "common practice, no source: say what would be worth acting on");
    private static final Assumption TRAY_CORRELATION = Assumption.usual(
            "tray_correlation",
            0.05,
            "cautious; common practice, no source. Carefully run plates had 0.012 to 0.019 (Crowder 1978, Applied"
                    + " Statistics 27, 34-37); for trays in stacks no published figure was found");
    private static final double PLACE_SD = 0.2;
    private static final String PLACE_SD_SOURCE =
            "a guess, no source: 5 points at a rate of 50 %. Plates had 0.235 (Crowder 1978)";
    private static final Assumption POWER = Assumption.usual(
            "power", 0.8, "usual since Cohen (1988), Statistical Power Analysis, section 2.4 (from memory)");

    /** A rate this near to 1 is 1. */
    private static final double ROUNDING = 1e-9;

    public Assumptions {
        placeSd = Collections.unmodifiableMap(new LinkedHashMap<>(placeSd));
        sources = List.copyOf(sources);
    }

    /**
     * What is taken for granted of a trial. How much places differ is guessed only where the plan doesn't say how much trays
     * differ either: a plan that speaks of the one and not of the other means places to be alike.
     */
    public static Assumptions of(Trial trial) {
        var expected = trial.expectations();
        var sources = new ArrayList<Assumption>();
        double control = value(expected.controlRate(), CONTROL_RATE, sources);
        double worthwhile = value(expected.worthwhile(), WORTHWHILE, sources);
        boolean silent =
                expected.trayCorrelation().isEmpty() && expected.placeSd().isEmpty();
        double correlation = value(expected.trayCorrelation(), TRAY_CORRELATION, sources);
        var placeSd = silent ? guessed(trial, sources) : planned(expected.placeSd(), sources);
        double power = value(expected.power(), POWER, sources);
        return new Assumptions(control, worthwhile, correlation, placeSd, power, trial.choices(), sources);
    }

    /** The same without a guess of how trays and places differ: where the plan is silent, they don't. */
    public static Assumptions plannedAlone(Trial trial) {
        var all = of(trial);
        var expected = trial.expectations();
        return all.withCorrelation(expected.trayCorrelation().orElse(0)).withPlaceSd(expected.placeSd());
    }

    private static double value(OptionalDouble said, Assumption usual, List<Assumption> sources) {
        sources.add(said.isPresent() ? Assumption.planned(usual.key(), said.getAsDouble()) : usual);
        return sources.get(sources.size() - 1).value();
    }

    private static Map<String, Double> planned(Map<String, Double> placeSd, List<Assumption> sources) {
        placeSd.forEach((level, sd) -> sources.add(Assumption.planned("place_sd." + level, sd)));
        return placeSd;
    }

    /** Every level whose units hold several trays that stay in it. */
    private static Map<String, Double> guessed(Trial trial, List<Assumption> sources) {
        var guessed = new LinkedHashMap<String, Double>();
        var place = trial.place();
        place.names().stream()
                .filter(l -> !place.isTray(l) && place.units(l) > 1 && !trial.moves(l))
                .forEach(l -> {
                    guessed.put(l, PLACE_SD);
                    sources.add(Assumption.usual("place_sd." + l, PLACE_SD, PLACE_SD_SOURCE));
                });
        return guessed;
    }

    /** What is taken of how trays and places differ without the plan saying it, in a sentence; nothing where it says all. */
    public Optional<String> guess() {
        var guessed = sources.stream()
                .filter(a -> !a.planned()
                        && (a.key().equals(TRAY_CORRELATION.key()) || a.key().startsWith("place_sd.")))
                .map(a -> a.key() + " " + Words.measure(a.value()))
                .toList();
        return guessed.isEmpty()
                ? Optional.empty()
                : Optional.of("Reckoned with " + String.join(", ", guessed) + ", which the plan doesn't say.");
    }

    /** The same with another source of some numbers: an earlier trial. */
    Assumptions learned(Set<String> keys, String trial) {
        return new Assumptions(
                controlRate,
                worthwhile,
                trayCorrelation,
                placeSd,
                power,
                choices,
                sources.stream()
                        .map(a -> keys.contains(a.key())
                                ? new Assumption(a.key(), a.value(), false, "the trial '" + trial + "'")
                                : a)
                        .toList());
    }

    /** The rate of what does something. */
    public double raisedRate() {
        return controlRate + worthwhile;
    }

    /** Whether both rates are proper ones: above 0 and below 1. */
    public boolean possible() {
        return controlRate > 0 && raisedRate() < 1 - ROUNDING;
    }

    /** The same with another correlation of the seeds of a tray. */
    public Assumptions withCorrelation(double correlation) {
        return new Assumptions(controlRate, worthwhile, correlation, placeSd, power, choices, sources);
    }

    /** The same with other standard deviations of places. */
    public Assumptions withPlaceSd(Map<String, Double> others) {
        return new Assumptions(controlRate, worthwhile, trayCorrelation, others, power, choices, sources);
    }

    /** The standard deviation of one place level, and of trays beside their seeds with {@link Place#TRAY}. */
    public double placeSd(String level) {
        return placeSd.getOrDefault(level, 0.0);
    }

    /** The trial with every expectation filled in. */
    public Trial fill(Trial trial) {
        return trial.expecting(new Expectations(
                OptionalDouble.of(controlRate),
                OptionalDouble.of(worthwhile),
                OptionalDouble.of(trayCorrelation),
                placeSd,
                OptionalDouble.of(power)));
    }
}
