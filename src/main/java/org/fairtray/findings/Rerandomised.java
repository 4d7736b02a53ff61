package org.fairtray.findings;

import java.util.List;

/**
 * The test of a term by running the randomisation again.
 *
 * @param statistic f
 * @param observed the F of the analysis of variance
 * @param arrangements how many were tried: all there are, the actual one among them, or those drawn by chance, without it
 * @param exact whether all there are were tried
 * @param p the share of arrangements, the actual one counted in, with an F as large as the observed or larger
 * @param scheme permuted, redrawn or residuals
 * @param smallestP no readings could have given a smaller p with so many arrangements
 * @param sentence what was done anew, and how often
 */
public record Rerandomised(
        String term,
        List<String> factors,
        String statistic,
        Double observed,
        int arrangements,
        boolean exact,
        Double p,
        String scheme,
        Double smallestP,
        String sentence) {}
