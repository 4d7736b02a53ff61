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
    },
    /** y/n. */
    PROPORTION {
        @Override
        public double of(double y, double n) {
            return y / n;
        }
    },
    /** ln((y + 0.5) / (n - y + 0.5)). */
    LOGIT {
        @Override
        public double of(double y, double n) {
            return Math.log((y + 0.5) / (n - y + 0.5));
        }
    };

    /** A count of y of n on this scale; n above 0. */
    public abstract double of(double y, double n);

    /** The name in files: angular, proportion or logit. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
