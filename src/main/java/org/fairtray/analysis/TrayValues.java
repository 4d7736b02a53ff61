package org.fairtray.analysis;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.models.CountFits;
import org.fairtray.analysis.models.MeasureFits;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Numbers;
import org.fairtray.trial.Trial;

/** Every tray with what was read, what the model fits and how far the two are apart. */
final class TrayValues {
    private TrayValues() {}

    /** By the logistic model; residuals are Pearson's over the root of the dispersion. */
    static List<Findings.TrayValue> ofRates(Trial trial, OutcomeData data, CountFits logistic) {
        double[] rates = data.raw();
        var dispersion = logistic.dispersion();
        return IntStream.range(0, data.trays().size())
                .mapToObj(i -> value(
                        trial,
                        data,
                        i,
                        rates[i],
                        logistic.fittedRate(i),
                        residual(data, i, logistic.fittedRate(i), dispersion)))
                .toList();
    }

    private static Double residual(OutcomeData data, int i, double rate, Optional<Double> dispersion) {
        double n = data.counts().get(i).trials();
        return dispersion
                .map(d -> Numbers.orNull((data.counts().get(i).successes() - n * rate)
                        / Math.sqrt(n * rate * (1 - rate) * Math.max(1, d))))
                .orElse(null);
    }

    /** By a linear model; residuals are over the residual standard deviation. */
    static List<Findings.TrayValue> ofValues(Trial trial, OutcomeData data, MeasureFits fits) {
        double[] values = data.raw();
        return IntStream.range(0, values.length)
                .mapToObj(i -> value(
                        trial,
                        data,
                        i,
                        values[i],
                        fits.fitted(i),
                        Numbers.orNull((values[i] - fits.fitted(i)) / fits.spread())))
                .toList();
    }

    private static Findings.TrayValue value(
            Trial trial, OutcomeData data, int i, double read, double fitted, Double residual) {
        var tray = data.trays().get(i);
        var count = data.isCount() ? data.counts().get(i) : null;
        return new Findings.TrayValue(
                tray.code(),
                OutcomeAnalysis.place(trial, tray),
                tray.treatment().levels(),
                count == null ? null : count.successes(),
                count == null ? null : count.trials(),
                read,
                fitted,
                residual);
    }
}
