package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.findings.AsGoodAs;
import org.fairtray.findings.Cost;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Rerandomised;
import org.fairtray.findings.Trend;
import org.fairtray.trial.Trial;

/** Invented findings of the rarer kinds, so that every table of the page has rows. */
final class SampleExtras {
    private SampleExtras() {}

    private static String first(Trial trial) {
        return trial.factors().get(0).name();
    }

    static List<Rerandomised> rerandomised() {
        return List.of(
                new Rerandomised(
                        "soak",
                        List.of("soak"),
                        "f",
                        12.61,
                        9999,
                        false,
                        0.0062,
                        "permuted",
                        0.0001,
                        "The levels of soak were exchanged among single trays: 9,999 arrangements were drawn by chance."),
                new Rerandomised(
                        "cover",
                        List.of("cover"),
                        "f",
                        0.84,
                        20,
                        true,
                        0.4,
                        "redrawn",
                        0.1,
                        "The layout of cover was drawn again: all 20 arrangements were tried."));
    }

    static List<Trend> trends(Trial trial) {
        return List.of(
                new Trend(
                        first(trial),
                        "linear",
                        0.0251,
                        0.0104,
                        0.0398,
                        1,
                        0.0041,
                        "Each hour more gives 2.5 points more."),
                new Trend(first(trial), "lack of fit", null, null, null, 2, 0.61, "Nothing is left beside the line."),
                new Trend("cover", "linear", 0.02, -0.01, 0.05, 1, 0.15, "Each kilogram more gives 2 points more."));
    }

    static List<Trend.Best> best(Trial trial) {
        return List.of(
                new Trend.Best(first(trial), 6.42, 5.1, null, true, "About 6.4 h is best; it may be more."),
                new Trend.Best(first(trial), null, null, null, false, "The curve has no highest point."));
    }

    static List<AsGoodAs> asGoodAs(Trial trial) {
        var levels = trial.factors().get(0).levels();
        return List.of(
                new AsGoodAs(
                        first(trial),
                        levels.get(1),
                        levels.get(0),
                        0.15,
                        0.012,
                        0.21,
                        -0.08,
                        0.171,
                        true,
                        false,
                        "Not worse by 15 points; it may be better."),
                new AsGoodAs(
                        first(trial),
                        levels.get(0),
                        levels.get(1),
                        0.15,
                        null,
                        null,
                        null,
                        null,
                        false,
                        false,
                        "It can’t be told."));
    }

    static List<Cost> costs(Trial trial) {
        var costs = new ArrayList<Cost>();
        double seedlings = 35.5;
        for (var treatment : trial.treatments()) {
            costs.add(new Cost(
                    treatment.levels(), "EUR", 1.234, seedlings, 1234 / seedlings, 1100 / seedlings, 1500 / seedlings));
            seedlings += 1;
        }
        costs.add(new Cost(trial.treatments().get(0).levels(), "EUR", 1.234, 0.0, null, 99.5, null));
        return costs;
    }

    static List<DataCheck> soundness() {
        return List.of(
                new DataCheck("replicates", true, List.of(), "range", 0.0, 0.21, "Trays of a treatment agree.", ""),
                new DataCheck(
                        "outlying tray",
                        false,
                        List.of("A100"),
                        "studentised residual",
                        4.021,
                        0.0031,
                        "Tray A100 lies farther from what the model fits than chance would put any.",
                        "Look up what happened to it."),
                new DataCheck("counters", true, List.of(), null, null, null, "Nobody was named as counter.", ""));
    }

    /** Every kind of fit beside those of independent seeds. */
    static Map<String, Logistic.Fit> fits(List<Logistic.Term> terms, List<Logistic.Coefficient> coefficients) {
        var fits = new LinkedHashMap<String, Logistic.Fit>();
        fits.put("beta_binomial", new Logistic.BetaBinomial(terms, coefficients, 0.0213, 0.0044, 0.0712, -74.2));
        var deviations = new LinkedHashMap<String, Double>();
        deviations.put("stack", 0.0);
        deviations.put("tray", 0.271);
        fits.put("mixed", new Logistic.Mixed(terms, coefficients, deviations, List.of("stack"), -75.02));
        fits.put("marginal", new Logistic.Marginal(terms, coefficients, Map.of("stack", 0.0333), 1.71));
        fits.put("penalised", new Logistic.Penalised(terms, coefficients, "profile", -77.31));
        return fits;
    }
}
