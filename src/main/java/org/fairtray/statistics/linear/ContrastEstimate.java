package org.fairtray.statistics.linear;

/**
 * An estimated combination of coefficients.
 *
 * @param standardError above 0
 * @param df degrees of freedom of its t, above 0, not always whole
 * @param low the lower confidence limit
 * @param high the upper
 * @param p P(|T| > |estimate / standardError|)
 */
public record ContrastEstimate(double estimate, double standardError, double df, double low, double high, double p) {}
