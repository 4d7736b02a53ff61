package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Findings.Anova;
import org.fairtray.findings.Findings.AnovaTerm;
import org.fairtray.findings.Findings.CountSummary;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Point;
import org.fairtray.findings.Findings.Progress;
import org.fairtray.findings.Findings.TrayValue;
import org.fairtray.findings.Logistic;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Invented outcomes: counts drawn with a fixed seed, intervals of about the right width. */
final class SampleOutcomes {
    private static final int SEEDS = 100;

    private SampleOutcomes() {}

    static OutcomeFindings count(
            Trial trial,
            Layout layout,
            String name,
            int day,
            List<Findings.Verdict> verdicts,
            List<Findings.InteractionNote> interactions,
            Anova anova) {
        var values = values(trial, layout);
        return new OutcomeFindings(
                name,
                "count",
                "sown",
                day,
                values.size(),
                List.of(),
                List.of(),
                design(),
                summary(trial, values),
                anova,
                logistic(),
                SampleExtras.rerandomised(),
                tests(),
                effects(trial),
                effects(trial),
                interactions,
                SampleExtras.trends(trial),
                SampleExtras.best(trial),
                SampleExtras.asGoodAs(trial),
                SampleExtras.costs(trial),
                name.equals("germinated") ? SampleSpeed.untold(trial) : SampleSpeed.of(trial),
                verdicts,
                SampleExtras.soundness(),
                values,
                progress(trial),
                List.of(
                        "The tray is the unit: its frames were added up.",
                        "Counts entered the analysis of variance as asin(√(y/n)) in radians.",
                        "Intervals of rates are Wilson’s, widened where trays differ more than seeds alone would."));
    }

    static OutcomeFindings germinated(Trial trial, Layout layout) {
        return count(
                trial,
                layout,
                "germinated",
                4,
                List.of(new Findings.Verdict("soak", "cannot tell", "8 h against 0 h: 4 points more (−3 to 11).")),
                List.of(),
                new Anova("angular", "strata", true, List.of(), null, null, List.of()));
    }

    /** Height, with one tray unread, analysed with a mixed model. */
    static OutcomeFindings height(Trial trial, Layout layout) {
        var random = new Random(3);
        var values = new ArrayList<TrayValue>();
        for (var tray : layout.trays().subList(1, layout.trays().size())) {
            double fitted = 40 + 3 * random.nextDouble();
            double residual = 0.9 * random.nextGaussian();
            values.add(value(trial, tray, null, fitted + 2 * residual, fitted, residual));
        }
        var summary = trial.treatments().stream()
                .map(t -> new Findings.MeasureSummary(t.levels(), 2, 41.3, 2.12, 38.4, 44.2))
                .toList();
        var effect = new Effect.OnMean(
                "soak",
                "8",
                "0",
                42.1,
                40.3,
                1.8,
                -0.4,
                4.0,
                0.101,
                0.101,
                -0.4,
                4.0,
                "none",
                "mixed model",
                -0.4,
                4.0);
        var term = new AnovaTerm("soak", List.of("soak"), 1, 18.2, 18.2, 3.1, 10.6, 0.107, null);
        var variances = new LinkedHashMap<String, Double>();
        variances.put("stack", 0.8);
        variances.put("tray", 5.87);
        return new OutcomeFindings(
                "height_mm",
                "measure",
                null,
                6,
                values.size(),
                List.of(layout.trays().get(0).code()),
                List.of(new Findings.LeftOut(layout.trays().get(0).code(), "no reading of height_mm on day 6")),
                design(),
                summary,
                new Anova("raw", "mixed", false, List.of(), List.of(term), variances, List.of()),
                null,
                List.of(),
                List.of(new Findings.TermTest(
                        "soak", List.of("soak"), "tray", "f", 3.1, 1, 11.0, 5.87, 0.107, null, 0.107)),
                List.of(effect),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                null,
                List.of(new Findings.Verdict("soak", "cannot tell", "8 h: 1.8 more (−0.4 to 4.0), p = 0.10.")),
                List.of(),
                values,
                List.of(),
                List.of("Heights of a tray’s frames were averaged."));
    }

    /** What is left where a trial is too small for any number. */
    static OutcomeFindings nothingToTell(Trial trial, Layout layout) {
        var tray = layout.trays().get(0);
        var treatment = tray.treatment().levels();
        return new OutcomeFindings(
                "through",
                "count",
                "sown",
                6,
                1,
                List.of(),
                List.of(),
                new Findings.Design(
                        "unreplicated",
                        "2 levels",
                        List.of("tray"),
                        "One tray.",
                        List.of(1),
                        "A textbook",
                        "spot (1)",
                        List.of()),
                List.of(new CountSummary(treatment, 1, 0, 100, 0.0, 0.0, 0.037, "wilson", 1.0)),
                new Anova("angular", "strata", true, List.of(), null, null, List.of()),
                new Logistic(null, "There is nothing to compare.", "soak no came out at 0 %.", Map.of()),
                List.of(),
                List.of(new Findings.TermTest(
                        "soak", List.of("soak"), "tray", "f", null, 1, null, null, null, null, null)),
                List.of(new Effect.OnRate(
                        "soak", "yes", "no", null, null, null, null, null, null, null, null, null, null, null, null,
                        null, null, null, null)),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                null,
                List.of(new Findings.Verdict("soak", "cannot tell", "One tray can’t tell.")),
                List.of(),
                List.of(value(trial, tray, 0L, 0.0, null, null)),
                List.of(new Progress("through", treatment, List.of(new Point(6, 1, 0, 100, 0.0)))),
                List.of());
    }

    private static Findings.Design design() {
        return new Findings.Design(
                "split-plot",
                "2 × 2 × 3 factorial",
                List.of("shelf", "stack", "tray"),
                "Cover was given to whole stacks, soak and mat to single trays.",
                List.of(2, 6, 24),
                "Yates (1935)",
                "shelf (2) → stack (3) → spot (4)",
                List.of("the same mat never lies side by side"));
    }

    private static double rate(Trial trial, Map<String, String> treatment) {
        double rate = 0.34;
        int f = 1;
        for (var factor : trial.factors()) {
            rate += 0.6 / factor.levels().size() / f * factor.levels().indexOf(treatment.get(factor.name()));
            f += 1;
        }
        return Math.min(0.95, rate);
    }

    private static List<TrayValue> values(Trial trial, Layout layout) {
        var random = new Random(11);
        var values = new ArrayList<TrayValue>();
        for (var tray : layout.trays()) {
            double fitted = rate(trial, tray.treatment().levels());
            double residual = random.nextGaussian();
            long successes = Math.round(SEEDS * Math.max(0, Math.min(1, fitted + 0.06 * residual)));
            values.add(value(trial, tray, successes, successes / (double) SEEDS, fitted, residual));
        }
        return values;
    }

    private static TrayValue value(
            Trial trial, Tray tray, Long successes, Double value, Double fitted, Double residual) {
        var place = new LinkedHashMap<String, Integer>();
        var names = trial.place().names();
        for (int i = 0; i < names.size(); i++) {
            place.put(names.get(i), tray.stand().at().get(i));
        }
        var of = successes == null ? null : Long.valueOf(SEEDS);
        return new TrayValue(tray.code(), place, tray.treatment().levels(), successes, of, value, fitted, residual);
    }

    private static List<CountSummary> summary(Trial trial, List<TrayValue> values) {
        var rows = new ArrayList<CountSummary>();
        for (var treatment : trial.treatments()) {
            var own = values.stream()
                    .filter(v -> v.treatment().equals(treatment.levels()))
                    .toList();
            if (own.isEmpty()) {
                continue;
            }
            long successes = own.stream().mapToLong(TrayValue::successes).sum();
            long of = (long) SEEDS * own.size();
            double rate = successes / (double) of;
            double half = 1.96 * Math.sqrt(1.9 * (rate * (1 - rate) + 0.01) / of);
            rows.add(new CountSummary(
                    treatment.levels(),
                    own.size(),
                    successes,
                    of,
                    rate,
                    Math.max(0, rate - half),
                    Math.min(1, rate + half),
                    "wilson, widened",
                    1.9));
        }
        return rows;
    }

    private static List<Effect.OnRate> effects(Trial trial) {
        var effects = new ArrayList<Effect.OnRate>();
        double difference = 0.2;
        for (var factor : trial.factors()) {
            for (var level : factor.levels().subList(1, factor.levels().size())) {
                effects.add(new Effect.OnRate(
                        factor.name(),
                        level,
                        factor.levels().get(0),
                        0.35 + difference,
                        0.35,
                        difference,
                        difference - 0.115,
                        difference + 0.11,
                        2.3,
                        1.4,
                        3.7,
                        0.0041,
                        0.0082,
                        difference - 0.13,
                        difference + 0.125,
                        "simultaneous t, 2 comparisons against the control",
                        "t of the difference, 11 degrees of freedom",
                        difference - 0.115,
                        difference + 0.11));
                difference = -0.6 * difference;
            }
        }
        return effects;
    }

    private static List<Findings.TermTest> tests() {
        return List.of(
                new Findings.TermTest("soak", List.of("soak"), "tray", "f", 12.61, 1, 11.0, 1.93, 0.0045, null, 0.0045),
                new Findings.TermTest("cover", List.of("cover"), "stack", "f", 0.84, 1, 3.0, 3.7, 0.427, null, 0.427),
                new Findings.TermTest("mat", List.of("mat"), "tray", "f", null, 2, null, null, null, null, null));
    }

    private static Logistic logistic() {
        var fits = new LinkedHashMap<String, Logistic.Fit>();
        List<Logistic.Term> terms = List.of(
                new Logistic.Term.Plain("soak", List.of("soak"), 1, "likelihood ratio", 41.2, 0.00000000014),
                new Logistic.Term.Plain("cover", List.of("cover"), 1, "likelihood ratio", 3.9, 0.048));
        var coefficients = List.of(
                new Logistic.Coefficient("(base)", -0.62, 0.11, -0.84, -0.40),
                new Logistic.Coefficient("soak=8", 0.83, 0.13, 0.57, 1.09));
        fits.put("binomial", new Logistic.Binomial(terms, coefficients, -80.1, 38.2, 18, 36.9));
        fits.put("quasi", new Logistic.Quasi(2.05, terms, coefficients));
        fits.putAll(SampleExtras.fits(terms, coefficients));
        return new Logistic("quasi", "Trays of one treatment differ more than seeds alone would.", null, fits);
    }

    private static List<Progress> progress(Trial trial) {
        var progress = new ArrayList<Progress>();
        for (var column : List.of("germinated", "through")) {
            for (var treatment : trial.treatments()) {
                double end = rate(trial, treatment.levels()) + (column.equals("germinated") ? 0.05 : 0);
                progress.add(new Progress(column, treatment.levels(), points(Math.min(1, end))));
            }
        }
        return progress;
    }

    private static List<Point> points(double end) {
        var points = new ArrayList<Point>();
        for (int day = 1; day <= 6; day++) {
            long successes = Math.round(200 * end / (1 + Math.pow(day / 3.1, -4)));
            points.add(new Point(day, 2, successes, 200, day == 2 ? null : successes / 200.0));
        }
        return points;
    }
}
