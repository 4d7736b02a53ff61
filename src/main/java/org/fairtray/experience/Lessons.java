package org.fairtray.experience;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.design.Generator;
import org.fairtray.design.Structure;
import org.fairtray.sizing.Normal;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Scale;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Learns from one count of a trial. On the angular scale a tray of m seeds varies by (h + ρ(1 − h)) / 4, h the mean of
 * 1/m, and a unit of a place level with standard deviation s on the log-odds by s²p(1 − p) / 4; both are solved from the
 * residual mean squares of the strata. Angles vary a little more than that, so ρ comes out about a tenth too high; the
 * closed form of power takes the same formula. The control's log-odds vary by what its own trays and units would.
 *
 * <p>Sources: as for {@link PlaceVariances}; for the variance of an angle Cochran and Cox (1957), Experimental Designs,
 * section 3.93, with the design effect of Kish (1965), Survey Sampling, section 5.4 (both from memory).
 */
public final class Lessons {
    private static final int DRAWS = 1000;
    private static final long SEED = 1;
    private static final double MOST_ALIKE = 0.99;

    private final Structure structure;
    private final List<Count> counts;
    private final PlaceVariances variances;
    private final double meanInverse;
    private final double spread;

    private Lessons(Structure structure, List<Count> counts) {
        this.structure = structure;
        this.counts = counts;
        var angles = counts.stream()
                .mapToDouble(c -> Scale.ANGULAR.of((double) c.successes(), (double) c.trials()))
                .toArray();
        var decomposition = structure.decomposition();
        this.variances = new PlaceVariances(
                structure.strata(),
                AnovaPart.of(structure, angles).residualMeanSquares(),
                IntStream.range(0, structure.strata().size())
                        .map(decomposition::residualDf)
                        .toArray());
        this.meanInverse =
                counts.stream().mapToDouble(c -> 1.0 / c.trials()).average().orElseThrow();
        this.spread = spread();
    }

    /** What a count of a trial teaches; empty where none of its trays was read. */
    public static Optional<Experience> of(Trial trial, Layout layout, List<Reading> readings, Outcome.Count outcome) {
        var data = OutcomeData.of(outcome, layout.trays(), Tallies.of(trial, readings));
        return data.trays().isEmpty()
                ? Optional.empty()
                : Optional.of(new Lessons(Structure.of(trial, data.trays()), data.counts())
                        .experience(outcome, CountingTime.minutesPerFrame(readings)));
    }

    private Experience experience(Outcome.Count outcome, Optional<Learned> minutes) {
        int[] ofControl = ofControl();
        var random = Generator.of(SEED);
        var base = ofControl.length > 0
                ? ofControl
                : IntStream.range(0, counts.size()).toArray();
        var guess = draw(variances.guess(), base, 0);
        var draws = new ArrayList<Experience.Draw>();
        for (int i = 0; i < DRAWS; i++) {
            draws.add(draw(variances.draw(random), base, Normal.draw(random)));
        }
        boolean alike = variances.knows(trays()) && meanInverse < 1;
        var placeSd = new LinkedHashMap<String, Learned>();
        guess.placeSd()
                .forEach((level, sd) -> placeSd.put(
                        level, Experience.learned(sd, draws, d -> d.placeSd().get(level))));
        return new Experience(
                structure.trial().title(),
                outcome.name(),
                ofControl.length,
                Experience.learned(guess.controlRate(), draws, Experience.Draw::controlRate),
                alike
                        ? Optional.of(
                                Experience.learned(guess.trayCorrelation(), draws, Experience.Draw::trayCorrelation))
                        : Optional.empty(),
                placeSd,
                minutes,
                draws);
    }

    private int trays() {
        return structure.strata().size() - 1;
    }

    private int[] ofControl() {
        var trial = structure.trial();
        var control = new LinkedHashMap<String, String>();
        trial.factors().forEach(f -> control.put(f.name(), trial.controlLevel(f)));
        return IntStream.range(0, counts.size())
                .filter(i -> structure.trays().get(i).treatment().equals(new Treatment(control)))
                .toArray();
    }

    /**
     * The figures that go with some variances.
     *
     * @param base the trays whose rate is wanted
     * @param deviate how many standard errors the rate is away from the one seen, log-odds
     */
    private Experience.Draw draw(double[] byStratum, int[] base, double deviate) {
        double alike = meanInverse < 1
                ? Math.max(0, Math.min(MOST_ALIKE, (4 * byStratum[trays()] - meanInverse) / (1 - meanInverse)))
                : 0;
        var placeSd = placeSd(byStratum);
        return new Experience.Draw(rate(base, alike, placeSd, deviate), alike, placeSd);
    }

    private Map<String, Double> placeSd(double[] byStratum) {
        var sd = new LinkedHashMap<String, Double>();
        for (int s = 0; s < trays(); s++) {
            String name = structure.strataNames().get(s);
            if (spread > 0
                    && variances.knows(s)
                    && structure.trial().place().names().contains(name)) {
                sd.put(name, 2 * Math.sqrt(byStratum[s] / spread));
            }
        }
        return sd;
    }

    /** Mean of p(1 − p) over the trays, p the rate of a tray's treatment. */
    private double spread() {
        double sum = 0;
        for (var tray : structure.trays()) {
            var treatment = tray.treatment();
            double rate = IntStream.range(0, counts.size())
                    .filter(i -> structure.trays().get(i).treatment().equals(treatment))
                    .mapToObj(counts::get)
                    .reduce(new Count(0, 0), Count::plus)
                    .rate();
            sum += rate * (1 - rate);
        }
        return sum / counts.size();
    }

    private double rate(int[] trays, double alike, Map<String, Double> placeSd, double deviate) {
        var sum = IntStream.of(trays).mapToObj(counts::get).reduce(new Count(0, 0), Count::plus);
        double rate = (sum.successes() + 0.5) / (sum.trials() + 1);
        double perTray = (double) sum.trials() / trays.length;
        double variance = (1 + (perTray - 1) * alike) / (sum.trials() * rate * (1 - rate));
        for (var entry : placeSd.entrySet()) {
            int[] units = structure.units(entry.getKey()).of();
            long different = IntStream.of(trays).map(i -> units[i]).distinct().count();
            variance += entry.getValue() * entry.getValue() / different;
        }
        return LogisticFit.rate(Math.log(rate / (1 - rate)) + deviate * Math.sqrt(variance));
    }
}
