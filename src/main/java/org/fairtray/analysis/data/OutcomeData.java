package org.fairtray.analysis.data;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Count;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Scale;
import org.fairtray.trial.Tray;

/**
 * The trays that an outcome could be read from, and what was read.
 *
 * @param trays in the layout's order
 * @param counts for a count, one for each tray; else empty
 * @param values for a measure, one for each tray; else empty
 * @param leftOut trays that could not be used, and why
 */
public record OutcomeData(List<Tray> trays, List<Count> counts, List<Double> values, List<Findings.LeftOut> leftOut) {

    public OutcomeData {
        trays = List.copyOf(trays);
        counts = List.copyOf(counts);
        values = List.copyOf(values);
        leftOut = List.copyOf(leftOut);
    }

    public static OutcomeData of(Outcome outcome, List<Tray> all, Tallies tallies) {
        return outcome.match(c -> ofCount(c, all, tallies), m -> ofMeasure(m, all, tallies));
    }

    private static OutcomeData ofCount(Outcome.Count outcome, List<Tray> all, Tallies tallies) {
        var read = tallies.counts(outcome);
        var trays = new ArrayList<Tray>();
        var counts = new ArrayList<Count>();
        var leftOut = new ArrayList<Findings.LeftOut>();
        for (Tray tray : all) {
            var tally = read.get(tray.code());
            if (tally == null) {
                leftOut.add(notRead(tray, outcome));
            } else if (tally.of() == 0) {
                leftOut.add(new Findings.LeftOut(tray.code(), "nothing " + outcome.of() + " on day " + outcome.day()));
            } else {
                trays.add(tray);
                counts.add(new Count(tally.successes(), tally.of()));
            }
        }
        return new OutcomeData(trays, counts, List.of(), leftOut);
    }

    private static OutcomeData ofMeasure(Outcome.Measure outcome, List<Tray> all, Tallies tallies) {
        var read = tallies.means(outcome);
        var trays = new ArrayList<Tray>();
        var values = new ArrayList<Double>();
        var leftOut = new ArrayList<Findings.LeftOut>();
        for (Tray tray : all) {
            if (read.containsKey(tray.code())) {
                trays.add(tray);
                values.add(read.get(tray.code()));
            } else {
                leftOut.add(notRead(tray, outcome));
            }
        }
        return new OutcomeData(trays, List.of(), values, leftOut);
    }

    private static Findings.LeftOut notRead(Tray tray, Outcome outcome) {
        return new Findings.LeftOut(tray.code(), "no reading of " + outcome.name() + " on day " + outcome.day());
    }

    public boolean isCount() {
        return !counts.isEmpty();
    }

    /** Counts on a scale, or measures as they are. */
    public double[] on(Scale scale) {
        return isCount()
                ? counts.stream()
                        .mapToDouble(c -> scale.of((double) c.successes(), (double) c.trials()))
                        .toArray()
                : values.stream().mapToDouble(Double::doubleValue).toArray();
    }

    /** Rates, or measures as they are. */
    public double[] raw() {
        return on(Scale.PROPORTION);
    }
}
