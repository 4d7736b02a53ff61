package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.stat.descriptive.DescriptiveStatistics;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Wilson;
import org.fairtray.statistics.logistic.Dispersion;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** Rates and means by treatment. */
final class Summaries {
    private Summaries() {}

    /**
     * Rates with Wilson's interval, widened where trays differ more than seeds alone would.
     *
     * @param dispersion that the rate of some trays, told by an indicator, is measured with; below 1 nothing is narrowed
     */
    static List<Findings.CountSummary> ofCounts(Trial trial, OutcomeData data, ToDoubleFunction<double[]> dispersion) {
        var summaries = new ArrayList<Findings.CountSummary>();
        for (Treatment treatment : trial.treatments()) {
            int[] trays = traysOf(data, treatment);
            if (trays.length > 0) {
                var indicator = new double[data.trays().size()];
                IntStream.of(trays).forEach(i -> indicator[i] = 1);
                double widening = Math.max(1, dispersion.applyAsDouble(indicator));
                summaries.add(summary(
                        treatment,
                        trays.length,
                        sum(data, trays),
                        widening,
                        trial.choices().alpha()));
            }
        }
        return summaries;
    }

    private static Findings.CountSummary summary(
            Treatment treatment, int trays, Count count, double widening, double alpha) {
        var interval = Wilson.interval(count, widening, 1 - alpha);
        return new Findings.CountSummary(
                treatment.levels(),
                trays,
                count.successes(),
                count.trials(),
                count.rate(),
                interval.low(),
                interval.high(),
                widening > 1 ? "wilson, widened" : "wilson",
                widening);
    }

    /** The dispersion of counts about the rates of their treatments, where no model is at hand; 1 without repeats. */
    static double dispersion(Trial trial, OutcomeData data) {
        var rates = new double[data.trays().size()];
        int treatments = 0;
        for (Treatment treatment : trial.treatments()) {
            int[] trays = traysOf(data, treatment);
            treatments += trays.length > 0 ? 1 : 0;
            for (int i : trays) {
                rates[i] = sum(data, trays).rate();
            }
        }
        int rest = rates.length - treatments;
        return rest == 0 ? 1 : Dispersion.pearson(data.counts(), rates) / rest;
    }

    /** Means with Student's interval from the treatment's own trays. */
    static List<Findings.MeasureSummary> ofMeasures(Trial trial, OutcomeData data) {
        var summaries = new ArrayList<Findings.MeasureSummary>();
        for (Treatment treatment : trial.treatments()) {
            int[] trays = traysOf(data, treatment);
            if (trays.length > 0) {
                var values = new DescriptiveStatistics();
                IntStream.of(trays).mapToDouble(i -> data.values().get(i)).forEach(values::addValue);
                summaries.add(summary(treatment, values, trial.choices().alpha()));
            }
        }
        return summaries;
    }

    private static Findings.MeasureSummary summary(Treatment treatment, DescriptiveStatistics values, double alpha) {
        int n = (int) values.getN();
        if (n == 1) {
            return new Findings.MeasureSummary(treatment.levels(), 1, values.getMean(), null, null, null);
        }
        double spread = values.getStandardDeviation();
        double half = Tail.tQuantile(1 - alpha / 2, n - 1.0) * spread / Math.sqrt(n);
        var interval = new Interval(values.getMean() - half, values.getMean() + half);
        return new Findings.MeasureSummary(
                treatment.levels(), n, values.getMean(), spread, interval.low(), interval.high());
    }

    private static int[] traysOf(OutcomeData data, Treatment treatment) {
        return IntStream.range(0, data.trays().size())
                .filter(i -> data.trays().get(i).treatment().equals(treatment))
                .toArray();
    }

    private static Count sum(OutcomeData data, int[] trays) {
        return IntStream.of(trays).mapToObj(data.counts()::get).reduce(new Count(0, 0), Count::plus);
    }
}
