package org.fairtray.analysis;

import java.util.Locale;

/** Numbers in sentences: no more digits than they are worth, and a true minus sign. */
final class Words {
    private Words() {}

    /** A rate such as "35 %"; near the ends, where it matters, with a decimal. */
    static String percent(double rate) {
        double percent = rate * 100;
        boolean nearEnd = (percent > 0 && percent < 2) || (percent > 98 && percent < 100);
        return number(percent, nearEnd ? 1 : 0) + " %";
    }

    /** A number of percentage points without its sign, such as "20 points". */
    static String points(double difference) {
        double points = Math.abs(difference * 100);
        String text = number(points, points < 2 ? 1 : 0);
        return text + (text.equals("1") ? " point" : " points");
    }

    /** A difference with its sign, such as "+20" or "−5", in percentage points. */
    static String signedPoints(double difference) {
        return signed(difference * 100, Math.abs(difference * 100) < 2 ? 1 : 0);
    }

    /** A number with its sign. */
    static String signed(double value, int digits) {
        String text = number(Math.abs(value), digits);
        boolean zero = text.chars().noneMatch(c -> c >= '1' && c <= '9');
        return zero ? text : (value < 0 ? "−" : "+") + text;
    }

    /** A measure to three significant digits or so. */
    static String measure(double value) {
        double size = Math.abs(value);
        int digits = size >= 100 ? 0 : size >= 10 ? 1 : 2;
        return (value < 0 ? "−" : "") + number(size, digits);
    }

    /** "p = 0.034" or "p < 0.001". */
    static String p(double p) {
        return p < 0.001 ? "p < 0.001" : "p = " + number(p, p < 0.1 ? 3 : 2);
    }

    private static String number(double value, int digits) {
        return String.format(Locale.ROOT, "%." + digits + "f", value);
    }
}
