package org.fairtray.report;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import org.fairtray.findings.Numbers;

/**
 * How numbers are written for people: as many digits as mean something, a true minus sign, and words where there is no
 * number.
 */
final class Digits {
    static final String NOT_AVAILABLE = "not available";

    /** Keeps a number and its unit on one line. */
    private static final String GAP = "\u00a0";

    private static final char MINUS = '\u2212';

    private Digits() {}

    /** A proportion in per cent: 0.354 is "35 %"; a decimal only near 0 and 100, where it matters. */
    static String percent(Double rate) {
        return rate == null ? NOT_AVAILABLE : bare(rate) + GAP + "%";
    }

    /** The same without the sign, for columns that say % at their head. */
    static String bare(Double rate) {
        if (rate == null) {
            return NOT_AVAILABLE;
        }
        double percent = rate * 100;
        if (percent > 0 && percent < 0.1) {
            return "<" + GAP + "0.1";
        }
        if (percent > 99.9 && percent < 100) {
            return ">" + GAP + "99.9";
        }
        boolean edge = (percent > 0 && percent < 1) || (percent > 99 && percent < 100);
        return places(percent, edge ? 1 : 0);
    }

    /** A difference of two proportions, "+20 points". */
    static String points(Double difference) {
        if (difference == null) {
            return NOT_AVAILABLE;
        }
        var number = pointNumber(difference);
        boolean one = number.equals("1") || number.equals(MINUS + "1");
        return signed(number) + GAP + (one ? "point" : "points");
    }

    /** The number of points alone, "20" or "−0.4". */
    static String pointNumber(Double difference) {
        if (difference == null) {
            return NOT_AVAILABLE;
        }
        double points = difference * 100;
        if (Math.abs(points) < 0.05) {
            return "0";
        }
        return places(points, Math.abs(points) < 0.95 ? 1 : 0);
    }

    /** A number with so many decimals. */
    static String fixed(Double value, int decimals) {
        return value == null ? NOT_AVAILABLE : places(value, decimals);
    }

    /** A written number with a plus sign where it is above zero. */
    static String signed(String number) {
        return Character.isDigit(number.charAt(0)) && number.matches(".*[1-9].*") ? "+" + number : number;
    }

    /** Three digits that count: 34.2, 112, 0.0123. */
    static String measure(Double value) {
        return significant(value, 3);
    }

    /** Four digits that count, for sums of squares and the like. */
    static String fine(Double value) {
        return significant(value, 4);
    }

    /** Two decimals, for F and chi-square. */
    static String statistic(Double value) {
        return value == null ? NOT_AVAILABLE : places(value, 2);
    }

    /** The name of a test statistic as statisticians write it. */
    static String statistic(String name, Double value) {
        var written = name == null ? "" : (name.equals("f") ? "F" : name) + " ";
        return value == null ? NOT_AVAILABLE : written + statistic(value);
    }

    /** Degrees of freedom: whole where they are whole. */
    static String df(Double value) {
        if (value == null) {
            return NOT_AVAILABLE;
        }
        return places(value, value == Math.rint(value) ? 0 : 1);
    }

    /** "0.004", "&lt; 0.001", "0.35": for a column of p. */
    static String p(Double p) {
        if (p == null) {
            return NOT_AVAILABLE;
        }
        if (p < 0.001) {
            return "<" + GAP + "0.001";
        }
        return p > 0.99 ? ">" + GAP + "0.99" : places(p, p < 0.1 ? 3 : 2);
    }

    /** "8 to 31", or that there is no interval. */
    static String range(String low, String high) {
        return low.equals(NOT_AVAILABLE) || high.equals(NOT_AVAILABLE) ? NOT_AVAILABLE : low + " to " + high;
    }

    /** The same where an end may be missing: "8 and more", "up to 31". */
    static String openRange(String low, String high) {
        if (high.equals(NOT_AVAILABLE)) {
            return low.equals(NOT_AVAILABLE) ? NOT_AVAILABLE : low + " and more";
        }
        return low.equals(NOT_AVAILABLE) ? "up to " + high : low + " to " + high;
    }

    /** A whole number, "12". */
    static String whole(long number) {
        return sign(Long.toString(number));
    }

    /** "1 tray", "3 trays". */
    static String counted(long number, String one, String many) {
        return whole(number) + GAP + (number == 1 ? one : many);
    }

    private static String significant(Double value, int digits) {
        if (value == null) {
            return NOT_AVAILABLE;
        }
        if (value == 0) {
            return "0";
        }
        var rounded = Numbers.steady(value).round(new MathContext(digits, RoundingMode.HALF_EVEN));
        double size = Math.abs(value);
        if (size < 1e-6 || size >= 1e9) {
            return sign(scientific(rounded));
        }
        int decimals = digits - (rounded.precision() - rounded.scale());
        return sign(
                rounded.setScale(Math.max(0, decimals), RoundingMode.HALF_EVEN).toPlainString());
    }

    private static String scientific(BigDecimal rounded) {
        int exponent = rounded.precision() - rounded.scale() - 1;
        return rounded.movePointLeft(exponent).toPlainString() + " × 10^" + sign(Integer.toString(exponent));
    }

    private static String places(double value, int places) {
        var rounded = Numbers.steady(value).setScale(places, RoundingMode.HALF_UP);
        boolean nothing = rounded.signum() == 0 && value == 0;
        return nothing ? "0" : sign(rounded.toPlainString());
    }

    private static String sign(String number) {
        return number.replace('-', MINUS);
    }

    /** A sentence in which numbers stay on one line with their percent sign or unit of points. */
    static String kept(String sentence) {
        return sentence.replaceAll("(?<=\\d) (?=%|points?\\b)", GAP);
    }
}
