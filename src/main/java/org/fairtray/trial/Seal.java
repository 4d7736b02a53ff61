package org.fairtray.trial;

import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/**
 * What ties a plan, its layout, what was drawn beside it and the seed together, so that anyone can see that none was
 * changed afterwards.
 *
 * @param planSha256 SHA-256 of plan.yaml, hexadecimal
 * @param layoutSha256 SHA-256 of layout.csv, hexadecimal
 * @param framesSha256 SHA-256 of frames.csv, where there was one
 * @param movesSha256 SHA-256 of rotation.csv, where there was one
 * @param seed the seed of the draw
 * @param generator the name of the random generator
 * @param restrictions restrictions on the draw, in words; none for a plain one
 * @param time when it was laid out, ISO 8601
 * @param version the version that drew it
 */
public record Seal(
        String planSha256,
        String layoutSha256,
        Optional<String> framesSha256,
        Optional<String> movesSha256,
        long seed,
        String generator,
        List<String> restrictions,
        String time,
        String version) {

    private static final Pattern DAY = Pattern.compile("^\\d{4}-\\d{2}-\\d{2}");

    public Seal {
        restrictions = List.copyOf(restrictions);
    }

    /** The day of the draw, ISO 8601; empty where the time doesn't begin with one. */
    public Optional<String> day() {
        var day = DAY.matcher(time);
        return day.find() ? Optional.of(day.group()) : Optional.empty();
    }

    /** The same with another time. */
    public Seal at(String otherTime) {
        return new Seal(
                planSha256, layoutSha256, framesSha256, movesSha256, seed, generator, restrictions, otherTime, version);
    }

    /** What became of a seal by the time of the analysis. */
    public enum State {
        /** All is what was sealed. */
        HOLDS,
        /** There is none: the trial was laid out by hand. */
        ABSENT,
        /** The plan was changed after sealing. */
        PLAN_CHANGED,
        /** The layout was changed after sealing. */
        LAYOUT_CHANGED,
        /** Both were changed after sealing. */
        BOTH_CHANGED,
        /** Plan and layout are those that were sealed; where frames lie was changed. */
        FRAMES_CHANGED,
        /** Plan and layout are those that were sealed; how trays move was changed. */
        MOVES_CHANGED,
        /** Plan and layout are those that were sealed; both of these were changed. */
        FRAMES_AND_MOVES_CHANGED;

        /** Whether the layout is the one that was drawn for the plan. */
        public boolean layoutIsDrawn() {
            return switch (this) {
                case HOLDS, FRAMES_CHANGED, MOVES_CHANGED, FRAMES_AND_MOVES_CHANGED -> true;
                case ABSENT, PLAN_CHANGED, LAYOUT_CHANGED, BOTH_CHANGED -> false;
            };
        }
    }
}
