package org.fairtray.findings;

/** The difference between two levels of a factor, averaged over the other factors. */
public sealed interface Effect {
    String factor();

    String level();

    String against();

    /** Of the level itself: a rate, or a mean in the measure's unit; null where it couldn't be told. */
    Double value();

    /** The same of the level it is held against. */
    Double againstValue();

    Double difference();

    Double low();

    Double high();

    Double p();

    Double pAdjusted();

    Double lowAdjusted();

    Double highAdjusted();

    String adjustment();

    String pFrom();

    Double verdictLow();

    Double verdictHigh();

    /**
     * On a rate: difference is in proportions (0.2 is 20 percentage points).
     *
     * @param low of the interval of this difference alone, as is high
     * @param lowAdjusted of the interval that holds together with those of the factor's other levels, as is highAdjusted
     * @param verdictLow of the interval that a verdict counts on, never narrower than seeds alone give, as is verdictHigh
     */
    record OnRate(
            String factor,
            String level,
            String against,
            Double rate,
            Double againstRate,
            Double difference,
            Double low,
            Double high,
            Double oddsRatio,
            Double oddsLow,
            Double oddsHigh,
            Double p,
            Double pAdjusted,
            Double lowAdjusted,
            Double highAdjusted,
            String adjustment,
            String pFrom,
            Double verdictLow,
            Double verdictHigh)
            implements Effect {

        /** Of two levels that nothing in the layout lets one compare. */
        public static OnRate unknown(String factor, String level, String against) {
            return new OnRate(
                    factor, level, against, null, null, null, null, null, null, null, null, null, null, null, null,
                    null, null, null, null);
        }

        @Override
        public Double value() {
            return rate;
        }

        @Override
        public Double againstValue() {
            return againstRate;
        }
    }

    /** On a measure, in its unit; the ends of intervals are as those of a rate. */
    record OnMean(
            String factor,
            String level,
            String against,
            Double mean,
            Double againstMean,
            Double difference,
            Double low,
            Double high,
            Double p,
            Double pAdjusted,
            Double lowAdjusted,
            Double highAdjusted,
            String adjustment,
            String pFrom,
            Double verdictLow,
            Double verdictHigh)
            implements Effect {

        /** Of two levels that nothing in the layout lets one compare. */
        public static OnMean unknown(String factor, String level, String against) {
            return new OnMean(
                    factor, level, against, null, null, null, null, null, null, null, null, null, null, null, null,
                    null);
        }

        @Override
        public Double value() {
            return mean;
        }

        @Override
        public Double againstValue() {
            return againstMean;
        }
    }
}
