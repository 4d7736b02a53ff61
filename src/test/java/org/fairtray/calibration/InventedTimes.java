package org.fairtray.calibration;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.analysis.SpeedInference;
import org.fairtray.sizing.InventedCounts;
import org.fairtray.sizing.Normal;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Outcome;

/**
 * How fast: seeds come out at log-logistic times around a median of three days, looked for on days 1 to 6. A factor's last
 * level may make the median 15 % later.
 */
final class InventedTimes implements Calibration.Kind {
    private static final double MEDIAN = 3;
    private static final double STEEPNESS = 5;
    private static final double LATER = 1.15;
    private static final int DAYS = 6;

    @Override
    public String trayHeading() {
        return "tray sd (log time)";
    }

    @Override
    public double[] trayValues() {
        return new double[] {0, 0.05, 0.15};
    }

    @Override
    public double[] placeSds() {
        return new double[] {0, 0.1};
    }

    @Override
    public Calibration.Said said(Calibration.Setting setting, UniformRandomProvider random) {
        var tried = setting.tried();
        var trays = tried.layout().trays();
        var counts = new InventedCounts(t -> tried.controlRate(), 0.05, setting.places());
        double[] shifts = counts.shifts(tried.trial().place(), trays, random);
        var courses = new HashMap<String, DayCounts>();
        double gained = 0;
        for (int i = 0; i < trays.size(); i++) {
            double usual = MEDIAN * Math.exp(shifts[i] + setting.trayValue() * Normal.draw(random));
            boolean late = setting.isRaised(trays.get(i).treatment());
            long out = counts.of(List.of(trays.get(i)), new double[1], tried.seeds(), random)
                    .get(0)
                    .successes();
            courses.put(trays.get(i).code(), course(late ? LATER * usual : usual, out, tried.seeds(), random));
            gained += (mean(LATER * usual) - mean(usual)) / trays.size();
        }
        double later = gained;
        var count = tried.trial().outcomes().get(0).<Optional<Outcome.Count>>match(Optional::of, m -> Optional.empty());
        return SpeedInference.ofCourses(setting.structure(), count.orElseThrow(), courses)
                .map(found -> Calibration.Said.of(
                        setting.factor(), found.termTests(), found.conclusions(), found.differences(), later))
                .orElseGet(() -> new Calibration.Said(null, "cannot tell", List.of(), later));
    }

    /** How many of so many seeds that come out some day were found on each day. */
    private static DayCounts course(double median, long out, int seeds, UniformRandomProvider random) {
        var events = new long[DAYS];
        for (long seed = 0; seed < out; seed++) {
            double u = random.nextDouble();
            double time = median * Math.pow(u / (1 - u), 1 / STEEPNESS);
            int day = (int) Math.max(1, Math.ceil(time));
            if (day <= DAYS) {
                events[day - 1]++;
            }
        }
        return new DayCounts(
                IntStream.rangeClosed(1, DAYS).mapToObj(d -> (double) d).toList(),
                Arrays.stream(events).boxed().toList(),
                seeds);
    }

    /** The mean time of those that come out by the last day, each half way between two readings. */
    private static double mean(double median) {
        double sum = 0;
        for (int day = 1; day <= DAYS; day++) {
            sum += (day - 0.5) * (by(day, median) - by(day - 1, median));
        }
        return sum / by(DAYS, median);
    }

    private static double by(int day, double median) {
        return day == 0 ? 0 : 1 / (1 + Math.pow(day / median, -STEEPNESS));
    }
}
