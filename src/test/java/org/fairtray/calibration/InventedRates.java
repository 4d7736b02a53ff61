package org.fairtray.calibration;

import java.util.Arrays;
import java.util.Map;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.analysis.Inference;
import org.fairtray.design.Structure;
import org.fairtray.sizing.InventedCounts;
import org.fairtray.trial.Factor;

/** How many: beta-binomial counts, of which a factor's last level may have 15 points more. */
final class InventedRates implements Calibration.Kind {
    private static final double GAIN = 0.15;

    @Override
    public String trayHeading() {
        return "correlation";
    }

    @Override
    public double[] trayValues() {
        return new double[] {0, 0.05, 0.15};
    }

    @Override
    public double[] placeSds() {
        return new double[] {0, 0.3};
    }

    @Override
    public Calibration.Said said(
            Layouts.Tried tried,
            Structure structure,
            Factor factor,
            boolean raised,
            double trayValue,
            Map<String, Double> places,
            UniformRandomProvider random) {
        String last = factor.levels().get(factor.levels().size() - 1);
        double much = tried.controlRate() + GAIN;
        var truth = new InventedCounts(
                t -> raised && last.equals(t.level(factor.name())) ? much : tried.controlRate(), trayValue, places);
        var trays = tried.layout().trays();
        double[] shifts = truth.shifts(tried.trial().place(), trays, random);
        var counts = truth.of(trays, shifts, tried.seeds(), random);
        var inference = Inference.ofCounts(structure, tried.trial().outcomes().get(0), counts);
        double gained = Arrays.stream(shifts)
                .map(s -> InventedCounts.shifted(much, s) - InventedCounts.shifted(tried.controlRate(), s))
                .average()
                .orElseThrow();
        return Calibration.Said.of(
                factor, inference.termTests(), inference.verdicts(), inference.differences(), gained);
    }
}
