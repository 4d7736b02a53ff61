package org.fairtray.analysis.soundness;

import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Tail;

/**
 * Whether counts differ about their fitted rates as seeds alone would make them: Pearson's X2 between trays of the same
 * place against chi-squared, both tails. More is usual, and the analysis allows for it, up to seeds of a tray being
 * {@value #VERY_ALIKE} correlated, a chosen limit; less is not what chance does.
 */
final class DispersionCheck {
    private static final String KIND = "dispersion";

    private static final String TOO_EVEN =
            "Ask how they were counted: rounded, copied, estimated by eye, or by someone who knew the other trays' counts."
                    + " Verdicts don't gain from it. Next time let trays be counted blind.";

    private static final String TOO_DIFFERENT =
            "Something differs between trays that no one wrote down: sowing, water, place, another seed lot, or the way of"
                    + " counting. Find it before you trust small differences.";

    /** Chi-squared needs a few seeds expected to come up, and to stay down, in a tray: McCullagh and Nelder, 4.4.5. */
    private static final double LEAST_EXPECTED = 3;

    /** The intraclass correlation beyond which something other than seeds differs; chosen, without a source. */
    private static final double VERY_ALIKE = 0.2;

    private DispersionCheck() {}

    static DataCheck of(Leftovers rest, List<Count> counts, double[] rates) {
        int df = rest.ofTrays().df();
        double expected = IntStream.range(0, rates.length)
                .mapToDouble(i -> counts.get(i).trials() * Math.min(rates[i], 1 - rates[i]))
                .average()
                .orElse(0);
        if (df == 0 || expected < LEAST_EXPECTED) {
            return DataCheck.notMade(
                    KIND,
                    "Whether counts differ as chance would make them can't be told: "
                            + (df == 0 ? "no trays are left over." : "too few seeds came up, or too few did not."));
        }
        double x2 = rest.ofTrays().sumOfSquares();
        double above = Tail.chiSquared(x2, df);
        double p = Math.min(1, 2 * Math.min(above, 1 - above));
        String amount = String.format(Locale.ROOT, "%.2f times what seeds alone give (%s)", x2 / df, Words.p(p));
        if (p < Soundness.LEVEL && above > 0.5) {
            return alarm(x2, p, "Counts differ less than chance allows: " + amount + ".", TOO_EVEN);
        }
        if (p < Soundness.LEVEL && correlation(x2 / df, counts) > VERY_ALIKE) {
            return alarm(x2, p, "Trays treated alike differ very much: " + amount + ".", TOO_DIFFERENT);
        }
        String sentence = p < Soundness.LEVEL
                ? "Seeds of a tray are alike: trays differ by " + amount + "; the analysis allows for it."
                : "Trays differ about as seeds alone would make them: " + amount + ".";
        return DataCheck.sound(KIND, "pearson", x2, p, sentence);
    }

    /** dispersion = 1 + (seeds - 1) correlation, for trays of equal size. */
    private static double correlation(double dispersion, List<Count> counts) {
        double seeds = counts.stream().mapToLong(Count::trials).average().orElse(1);
        return seeds > 1 ? (dispersion - 1) / (seeds - 1) : 0;
    }

    private static DataCheck alarm(double x2, double p, String sentence, String remedy) {
        return new DataCheck(KIND, false, List.of(), "pearson", x2, p, sentence, remedy);
    }
}
