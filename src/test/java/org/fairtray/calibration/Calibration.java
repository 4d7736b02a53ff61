package org.fairtray.calibration;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.analysis.Inference;
import org.fairtray.design.Generator;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.sizing.InventedCounts;
import org.fairtray.trial.Factor;

/**
 * Tries the analysis on invented trials in which the truth is known: how often is a factor that does nothing called one
 * that does, and how often does an interval hold the true difference? See docs/calibration.md.
 *
 * <p>Arguments: how many trials of each kind, the seed, and perhaps a word that names of layouts must contain.
 */
public final class Calibration {
    private static final double[] CORRELATIONS = {0, 0.05, 0.15};
    private static final double[] PLACE_SDS = {0, 0.3};
    private static final double GAIN = 0.15;

    private final PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    private final int trials;
    private final long seed;

    private Calibration(int trials, long seed) {
        this.trials = trials;
        this.seed = seed;
    }

    /** Runs the study. */
    public static void main(String[] args) {
        var study = new Calibration(Integer.parseInt(args[0]), Long.parseLong(args[1]));
        study.out.println(
                "| layout | correlation | place sd | factor | test ≤ 0.05 | false 'changed' | coverage, no effect |"
                        + " coverage, effect | 'changed', effect |");
        study.out.println("|---|---|---|---|---|---|---|---|---|");
        for (var tried : Layouts.all()) {
            if (args.length < 3 || tried.name().contains(args[2])) {
                study.run(tried);
            }
        }
    }

    private void run(Layouts.Tried tried) {
        var structure = Structure.of(tried.trial(), tried.layout().trays());
        for (double correlation : CORRELATIONS) {
            for (double sd : PLACE_SDS) {
                Map<String, Double> places = structure.strataNames().stream()
                        .filter(l -> sd > 0 && !l.equals("tray"))
                        .collect(Collectors.toMap(l -> l, l -> sd));
                if (sd == 0 || !places.isEmpty()) {
                    run(tried, structure, correlation, sd, places);
                }
            }
        }
    }

    private void run(
            Layouts.Tried tried, Structure structure, double correlation, double sd, Map<String, Double> places) {
        for (Factor factor : tried.trial().factors()) {
            var none =
                    repeat(tried, structure, new InventedCounts(t -> tried.controlRate(), correlation, places), factor);
            String last = factor.levels().get(factor.levels().size() - 1);
            double raised = tried.controlRate() + GAIN;
            var some = repeat(
                    tried,
                    structure,
                    new InventedCounts(
                            t -> last.equals(t.level(factor.name())) ? raised : tried.controlRate(),
                            correlation,
                            places),
                    factor);
            out.printf(
                    Locale.ROOT,
                    "| %s | %.2f | %.1f | %s | %.4f | %.4f | %.4f | %.4f | %.3f |%n",
                    tried.name(),
                    correlation,
                    sd,
                    factor.name(),
                    share(none, t -> t.p() != null && t.p() <= 0.05),
                    share(none, t -> t.verdict().equals("changed")),
                    coverage(none, l -> false),
                    coverage(some, last::equals),
                    share(some, t -> t.verdict().equals("changed")));
        }
    }

    /**
     * What one trial said of a factor.
     *
     * @param truth the true difference that the gain makes, averaged over the places of the trial
     */
    private record Said(Double p, String verdict, List<Effect> effects, double truth) {}

    private interface Condition {
        boolean holds(Said said);
    }

    private List<Said> repeat(Layouts.Tried tried, Structure structure, InventedCounts truth, Factor factor) {
        return IntStream.range(0, trials)
                .parallel()
                .mapToObj(i -> {
                    var random = Generator.of(seed * 1_000_003 + i);
                    var trays = tried.layout().trays();
                    double[] shifts = truth.shifts(tried.trial().place(), trays, random);
                    var counts = truth.of(trays, shifts, tried.seeds(), random);
                    var outcome = tried.trial().outcomes().get(0);
                    return said(Inference.ofCounts(structure, outcome, counts), factor, gained(tried, shifts));
                })
                .toList();
    }

    /** What the gain makes in the places of one trial. */
    private static double gained(Layouts.Tried tried, double[] shifts) {
        return Arrays.stream(shifts)
                .map(s -> InventedCounts.shifted(tried.controlRate() + GAIN, s)
                        - InventedCounts.shifted(tried.controlRate(), s))
                .average()
                .orElseThrow();
    }

    private static Said said(Inference inference, Factor factor, double truth) {
        Double p = inference.termTests().stream()
                .filter(t -> t.term().equals(factor.name()))
                .map(Findings.TermTest::p)
                .findFirst()
                .orElse(null);
        String verdict = inference.verdicts().stream()
                .filter(v -> v.factor().equals(factor.name()))
                .findFirst()
                .orElseThrow()
                .verdict();
        return new Said(
                p,
                verdict,
                inference.differences().stream()
                        .filter(e -> e.factor().equals(factor.name()))
                        .toList(),
                truth);
    }

    private static double share(List<Said> all, Condition condition) {
        return all.stream().filter(condition::holds).count() / (double) all.size();
    }

    /** The share of intervals that hold the truth, all levels together; one that could not be given holds nothing. */
    private static double coverage(List<Said> all, Predicate<String> raised) {
        long intervals = 0;
        long hold = 0;
        for (var said : all) {
            for (var effect : said.effects()) {
                intervals++;
                double difference = raised.test(effect.level()) ? said.truth() : 0;
                hold += effect.low() != null && effect.low() <= difference && difference <= effect.high() ? 1 : 0;
            }
        }
        return intervals == 0 ? Double.NaN : hold / (double) intervals;
    }
}
