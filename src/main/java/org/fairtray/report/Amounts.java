package org.fairtray.report;

import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.TrayValue;

/**
 * How an outcome's amounts are written: rates in per cent and their differences in points; a measure and its differences
 * with the same decimals throughout, so that columns line up and no number looks surer than its neighbour.
 */
final class Amounts {
    private static final int DIGITS = 3;
    private static final int MOST_DECIMALS = 6;

    private final boolean count;
    private final int decimals;

    private Amounts(boolean count, int decimals) {
        this.count = count;
        this.decimals = decimals;
    }

    static Amounts of(OutcomeFindings outcome) {
        double largest = outcome.trayValues().stream()
                .map(TrayValue::value)
                .filter(v -> v != null)
                .mapToDouble(Math::abs)
                .max()
                .orElse(1);
        int before = largest > 0 ? (int) Math.floor(Math.log10(largest)) + 1 : 1;
        return new Amounts(Names.isCount(outcome), Math.max(0, Math.min(MOST_DECIMALS, DIGITS - before)));
    }

    /** "35 %" or "41.3". */
    String amount(Double value) {
        return count ? Digits.percent(value) : Digits.fixed(value, decimals);
    }

    /** "35" or "41.3", for columns whose head says the unit. */
    String bare(Double value) {
        return count ? Digits.bare(value) : Digits.fixed(value, decimals);
    }

    /** "+20 points" or "+1.8". */
    String difference(Double difference) {
        return count ? Digits.points(difference) : Digits.signed(Digits.fixed(difference, decimals));
    }

    /** "20" or "1.8". */
    String bareDifference(Double difference) {
        return count ? Digits.pointNumber(difference) : Digits.fixed(difference, decimals);
    }

    /** "28 to 43". */
    String range(Double low, Double high) {
        return Digits.range(bare(low), bare(high));
    }

    /** "−4 to 31". */
    String differenceRange(Double low, Double high) {
        return Digits.range(bareDifference(low), bareDifference(high));
    }

    /** The value as a chart's axis counts it: per cent, or as it is. */
    Double onAxis(Double value) {
        return value == null || !count ? value : Double.valueOf(100 * value);
    }
}
