package org.fairtray.findings;

/**
 * Whether a level is as good as the control, by two one-sided tests against the difference that would matter.
 *
 * @param margin the difference that would matter, a proportion
 * @param pNotWorse that the level is worse by the margin or more, if it is small this is unlikely
 * @param pNotBetter the same for better
 * @param low of the 1 - 2 alpha interval, as is high
 * @param notWorse whether worse by the margin is ruled out
 * @param same whether both are ruled out
 * @param sentence the same in plain words
 */
public record AsGoodAs(
        String factor,
        String level,
        String against,
        Double margin,
        Double pNotWorse,
        Double pNotBetter,
        Double low,
        Double high,
        boolean notWorse,
        boolean same,
        String sentence) {}
