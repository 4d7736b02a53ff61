package org.fairtray.trial;

import java.util.List;

/**
 * What ties a plan, its layout and the seed together, so that anyone can see that none was changed afterwards.
 *
 * @param planSha256 SHA-256 of plan.yaml, hexadecimal
 * @param layoutSha256 SHA-256 of layout.csv, hexadecimal
 * @param seed the seed of the draw
 * @param generator the name of the random generator
 * @param restrictions restrictions on the draw, in words; none for a plain one
 * @param time when it was laid out, ISO 8601
 * @param version the version that drew it
 */
public record Seal(
        String planSha256,
        String layoutSha256,
        long seed,
        String generator,
        List<String> restrictions,
        String time,
        String version) {

    public Seal {
        restrictions = List.copyOf(restrictions);
    }

    /** What became of a seal by the time of the analysis. */
    public enum State {
        /** Plan and layout are those that were sealed. */
        HOLDS,
        /** There is none: the trial was laid out by hand. */
        ABSENT,
        /** The plan was changed after sealing. */
        PLAN_CHANGED,
        /** The layout was changed after sealing. */
        LAYOUT_CHANGED,
        /** Both were changed after sealing. */
        BOTH_CHANGED
    }
}
