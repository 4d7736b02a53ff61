package org.fairtray.trial;

import java.util.Locale;

/** The scale on which a count of y of n enters the analysis of variance. */
public enum Scale {
    /** asin(sqrt(y/n)), radians. */
    ANGULAR {
        @Override
        public double of(double y, double n) {
            return Math.asin(Math.sqrt(y / n));
        }

        @Override
        public double slope(double rate, double n) {
            return 1 / (2 * Math.sqrt(rate * (1 - rate)));
        }
    },
    /** y/n. */
    PROPORTION {
        @Override
        public double of(double y, double n) {
            return y / n;
        }

        @Override
        public double slope(double rate, double n) {
            return 1;
        }
    },
    /** ln((y + 0.5) / (n - y + 0.5)). */
    LOGIT {
        @Override
        public double of(double y, double n) {
            return Math.log((y + 0.5) / (n - y + 0.5));
        }

        @Override
        public double slope(double rate, double n) {
            return n / (rate * n + 0.5) + n / (n - rate * n + 0.5);
        }
    };

    /** A count of y of n on this scale; n above 0. */
    public abstract double of(double y, double n);

    /** How much it rises for a small rise of the rate y/n; rate in (0, 1), n above 0. */
    public abstract double slope(double rate, double n);

    /** The name in files: angular, proportion or logit. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
