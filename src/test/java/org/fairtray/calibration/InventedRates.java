package org.fairtray.calibration;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.analysis.Inference;
import org.fairtray.sizing.InventedCounts;

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
    public Calibration.Said said(Calibration.Setting setting, UniformRandomProvider random) {
        var tried = setting.tried();
        double usual = tried.controlRate();
        double much = usual + GAIN;
        var truth = new InventedCounts(t -> setting.isRaised(t) ? much : usual, setting.trayValue(), setting.places());
        var trays = tried.layout().trays();
        double[] shifts = truth.shifts(tried.trial().place(), trays, random);
        var counts = truth.of(trays, shifts, tried.seeds(), random);
        var inference =
                Inference.ofCounts(setting.structure(), tried.trial().outcomes().get(0), counts);
        double gained = Arrays.stream(shifts)
                .map(s -> InventedCounts.shifted(much, s) - InventedCounts.shifted(usual, s))
                .average()
                .orElseThrow();
        return Calibration.Said.of(
                setting.factor(), inference.termTests(), inference.verdicts(), inference.differences(), gained);
    }
}
