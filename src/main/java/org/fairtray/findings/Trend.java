package org.fairtray.findings;

/**
 * How an outcome follows the levels of a numeric factor, averaged over the other factors.
 *
 * @param component linear, quadratic, cubic, then quartic, quintic or degree 6 and so on; or lack of fit: what is left beside the first two
 * @param estimate the orthogonal polynomial's coefficient, on the scale of rates or in the measure's unit, such that the
 *     linear one is the slope per unit of the factor; null for the lack of fit
 * @param df 1, or for the lack of fit the components that it holds
 * @param sentence the same in plain words
 */
public record Trend(
        String factor, String component, Double estimate, Double low, Double high, int df, Double p, String sentence) {

    /**
     * The level at which a curved response is highest.
     *
     * @param level in the factor's unit; null where the curve has no highest point
     * @param low of its interval, as is high; null where the interval has no end
     * @param inside whether it lies between the lowest and the highest level that were tried
     * @param sentence the same in plain words
     */
    public record Best(String factor, Double level, Double low, Double high, boolean inside, String sentence) {}
}
