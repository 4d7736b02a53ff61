package org.fairtray.analysis.soundness;

import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.residuals.Outliers;

/**
 * Whether a tray lies far from what the model fits to it. Of a count's Pearson and deviance residuals the one nearer to 0
 * is taken, because the first is too long where hardly any seed was expected, the second where hardly any came up.
 */
final class OutlierCheck {
    private static final String KIND = "outlying tray";

    private static final String REMEDY =
            "See the notes and count again where you can. A tray is never left out by itself: if something happened to it,"
                    + " analyse once with it and once without, and tell both.";

    private OutlierCheck() {}

    static DataCheck ofMeasures(Leftovers rest) {
        return of(rest, rest.ofTrays().residuals());
    }

    static DataCheck ofCounts(Leftovers rest, List<Count> counts) {
        double[] pearson = rest.ofTrays().residuals();
        return of(
                rest,
                IntStream.range(0, pearson.length)
                        .mapToDouble(i -> Math.copySign(
                                Math.min(
                                        Math.abs(pearson[i]),
                                        deviance(
                                                counts.get(i),
                                                LogisticFit.rate(rest.ofTrays().fitted(i)))),
                                pearson[i]))
                        .toArray());
    }

    /** The root of a count's part of the deviance; McCullagh and Nelder (1989), section 2.4.3. */
    private static double deviance(Count count, double rate) {
        double rest = count.trials() - (double) count.successes();
        double part = part((double) count.successes(), count.trials() * rate) + part(rest, count.trials() * (1 - rate));
        return Math.sqrt(Math.max(0, 2 * part));
    }

    private static double part(double observed, double expected) {
        return observed == 0 ? 0 : observed * Math.log(observed / expected);
    }

    private static DataCheck of(Leftovers rest, double[] residuals) {
        if (rest.ofTrays().df() < 3 || rest.ofTrays().sumOfSquares() == 0) {
            return DataCheck.notMade(
                    KIND, "Whether a tray lies far out can't be told: the trays leave too little to hold one against.");
        }
        var outliers = Outliers.of(rest.ofTrays(), residuals);
        var out = IntStream.range(0, residuals.length)
                .filter(i -> outliers.adjusted(i) < Soundness.LEVEL)
                .toArray();
        int farthest = outliers.farthest();
        Double value = Numbers.orNull(outliers.studentised(farthest));
        double p = outliers.adjusted(farthest);
        if (out.length == 0) {
            return DataCheck.sound(
                    KIND, "studentised residual", value, p, "No tray lies too far from its fitted value.");
        }
        var codes = rest.codes(IntStream.of(out));
        return new DataCheck(KIND, false, codes, "studentised residual", value, p, sentence(codes, value, p), REMEDY);
    }

    private static String sentence(List<String> codes, Double value, double p) {
        String size =
                value == null ? "" : String.format(Locale.ROOT, ", %.1f standard deviations at most", Math.abs(value));
        return (codes.size() == 1 ? "Tray " : "Trays ") + String.join(", ", codes)
                + (codes.size() == 1 ? " lies" : " lie") + " farther from what the model fits than chance would put any"
                + size + " (" + Words.p(p) + ", for all trays together).";
    }
}
