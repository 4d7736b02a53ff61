package org.fairtray.statistics.linear;

/**
 * An F test.
 *
 * @param f 0 or more
 * @param df numerator degrees of freedom, 1 or more
 * @param denominatorDf above 0, not always whole
 * @param p P(F > f), in [0, 1]
 */
public record FTest(double f, int df, double denominatorDf, double p) {}
