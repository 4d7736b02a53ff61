package org.fairtray.findings;

import java.util.Locale;

/** Numbers in sentences: no more digits than they are worth, and a true minus sign. */
public final class Words {
    /** How differences of rates are said: in percentage points. */
    public static final Differences OF_RATES = new Differences() {
        @Override
        public String size(double difference) {
            return points(difference);
        }

        @Override
        public String end(double difference) {
            double points = Math.abs(difference * 100);
            return number(points, points < 2 ? 1 : 0);
        }

        @Override
        public String direction(double difference) {
            return difference < 0 ? "fewer" : "more";
        }
    };

    /** How differences of measures are said: in their unit. */
    public static final Differences OF_MEASURES = new Differences() {
        @Override
        public String size(double difference) {
            return measure(Math.abs(difference));
        }

        @Override
        public String end(double difference) {
            return measure(Math.abs(difference));
        }

        @Override
        public String direction(double difference) {
            return difference < 0 ? "less" : "more";
        }
    };

    /** How differences of times are said: in days. */
    public static final Differences OF_DAYS = new Differences() {
        @Override
        public String size(double difference) {
            return days(Math.abs(difference));
        }

        @Override
        public String end(double difference) {
            return shortDays(Math.abs(difference));
        }

        @Override
        public String direction(double difference) {
            return difference < 0 ? "earlier" : "later";
        }
    };

    /** A way to say differences. */
    public interface Differences {
        /** Without its direction, with its unit. */
        String size(double difference);

        /** The end of an interval, without direction or unit. */
        String end(double difference);

        /** Up or down. */
        String direction(double difference);

        /** Such as "12 points more". */
        default String change(double difference) {
            return size(difference) + " " + direction(difference);
        }

        /** Such as "9 to 16 more", "16 to 24 fewer" or "14 fewer to 12 more". */
        default String range(double low, double high) {
            if (low < 0 && high > 0) {
                return end(low) + " " + direction(low) + " to " + end(high) + " " + direction(high);
            }
            boolean down = high <= 0;
            return down
                    ? end(high) + " to " + end(low) + " " + direction(low)
                    : end(low) + " to " + end(high) + " " + direction(high);
        }
    }

    private Words() {}

    /** A rate such as "35 %"; near the ends, where it matters, with a decimal. */
    public static String percent(double rate) {
        double percent = rate * 100;
        boolean nearEnd = (percent >= 0.05 && percent < 2) || (percent > 98 && percent <= 99.95);
        return number(percent, nearEnd ? 1 : 0) + " %";
    }

    /** A number of percentage points without its sign, such as "20 points". */
    public static String points(double difference) {
        double points = Math.abs(difference * 100);
        String text = number(points, points < 2 ? 1 : 0);
        return text + (text.equals("1") ? " point" : " points");
    }

    /** A measure to three significant digits or so. */
    public static String measure(double value) {
        double size = Math.abs(value);
        int digits = size >= 100 ? 0 : size >= 10 ? 1 : 2;
        return (value < 0 ? "−" : "") + number(size, digits);
    }

    /** A time such as "2.9 days". */
    public static String days(double days) {
        return shortDays(days) + " days";
    }

    private static String shortDays(double days) {
        return number(days, days < 0.1 ? 2 : 1);
    }

    /** "p = 0.034" or "p < 0.001". */
    public static String p(double p) {
        return p < 0.001 ? "p < 0.001" : "p = " + number(p, p < 0.1 ? 3 : 2);
    }

    private static String number(double value, int digits) {
        return String.format(Locale.ROOT, "%." + digits + "f", Numbers.steady(value));
    }
}
