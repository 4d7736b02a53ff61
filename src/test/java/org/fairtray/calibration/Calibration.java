package org.fairtray.calibration;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.design.Generator;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * Tries the analysis on invented trials in which the truth is known: how often is a factor that does nothing called one
 * that does, and how often does an interval hold the true difference? See docs/calibration.md.
 *
 * <p>Arguments: {@code counts} (how many) or {@code times} (how fast), how many trials of each kind, the seed, and perhaps
 * a word that names of layouts must contain.
 */
public final class Calibration {
    private final PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    private final Kind kind;
    private final int trials;
    private final long seed;

    private Calibration(Kind kind, int trials, long seed) {
        this.kind = kind;
        this.trials = trials;
        this.seed = seed;
    }

    /** What is invented, and what the analysis says of it. */
    interface Kind {
        /** What the table calls how much trays differ. */
        String trayHeading();

        double[] trayValues();

        double[] placeSds();

        /** Invents one trial and analyses it. */
        Said said(Setting setting, UniformRandomProvider random);
    }

    /**
     * What one row of the table is about.
     *
     * @param raised whether the factor's last level does something; all else does nothing
     * @param trayValue how much trays differ, as the kind has it
     * @param places standard deviation of the units of place levels
     */
    record Setting(
            Layouts.Tried tried,
            Structure structure,
            Factor factor,
            boolean raised,
            double trayValue,
            Map<String, Double> places) {

        String last() {
            return factor.levels().get(factor.levels().size() - 1);
        }

        /** Whether a treatment has the level that does something. */
        boolean isRaised(Treatment treatment) {
            return raised && last().equals(treatment.level(factor.name()));
        }
    }

    /**
     * What was said of a factor in one trial.
     *
     * @param truth the true difference that the last level makes
     */
    record Said(Double p, String verdict, List<Effect> effects, double truth) {

        static Said of(
                Factor factor,
                List<Findings.TermTest> tests,
                List<Findings.Verdict> verdicts,
                List<Effect> effects,
                double truth) {
            return new Said(
                    tests.stream()
                            .filter(t -> t.term().equals(factor.name()))
                            .findFirst()
                            .orElseThrow()
                            .p(),
                    verdicts.stream()
                            .filter(v -> v.factor().equals(factor.name()))
                            .findFirst()
                            .orElseThrow()
                            .verdict(),
                    effects.stream()
                            .filter(e -> e.factor().equals(factor.name()))
                            .toList(),
                    truth);
        }

        boolean isSignificant() {
            return p != null && p <= 0.05;
        }

        boolean isChanged() {
            return verdict.equals("changed");
        }
    }

    /** Runs the study. */
    public static void main(String[] args) {
        Kind kind = args[0].equals("times") ? new InventedTimes() : new InventedRates();
        var study = new Calibration(kind, Integer.parseInt(args[1]), Long.parseLong(args[2]));
        study.out.println("| layout | " + kind.trayHeading()
                + " | place sd | factor | test ≤ 0.05 | false 'changed' | coverage, no effect |"
                + " coverage, effect | 'changed', effect |");
        study.out.println("|---|---|---|---|---|---|---|---|---|");
        for (var tried : Layouts.all()) {
            if (args.length < 4 || tried.name().contains(args[3])) {
                study.run(tried);
            }
        }
    }

    private void run(Layouts.Tried tried) {
        var structure = Structure.of(tried.trial(), tried.layout().trays());
        for (double trayValue : kind.trayValues()) {
            for (double sd : kind.placeSds()) {
                Map<String, Double> places = structure.strataNames().stream()
                        .filter(l -> sd > 0 && !l.equals("tray"))
                        .collect(Collectors.toMap(l -> l, l -> sd));
                if (sd == 0 || !places.isEmpty()) {
                    tried.trial()
                            .factors()
                            .forEach(f ->
                                    run(sd, raised -> new Setting(tried, structure, f, raised, trayValue, places)));
                }
            }
        }
    }

    private void run(double sd, Function<Boolean, Setting> setting) {
        var still = setting.apply(false);
        var none = repeat(still);
        var some = repeat(setting.apply(true));
        out.printf(
                Locale.ROOT,
                "| %s | %.2f | %.1f | %s | %.4f | %.4f | %.4f | %.4f | %.3f |%n",
                still.tried().name(),
                still.trayValue(),
                sd,
                still.factor().name(),
                share(none, Said::isSignificant),
                share(none, Said::isChanged),
                coverage(none, l -> false),
                coverage(some, still.last()::equals),
                share(some, Said::isChanged));
    }

    private List<Said> repeat(Setting setting) {
        return IntStream.range(0, trials)
                .parallel()
                .mapToObj(i -> kind.said(setting, Generator.of(seed * 1_000_003 + i)))
                .toList();
    }

    private static double share(List<Said> all, Predicate<Said> condition) {
        return all.stream().filter(condition).count() / (double) all.size();
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
