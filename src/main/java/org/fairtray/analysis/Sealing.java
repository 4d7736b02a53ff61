package org.fairtray.analysis;

import java.util.Optional;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Seal;

/**
 * The seal of a trial as it stands at the analysis.
 *
 * @param state whether it still holds
 * @param seal what was sealed, if anything was
 * @param planSha256 SHA-256 of the plan as it is now
 * @param layoutSha256 SHA-256 of the layout as it is now
 */
public record Sealing(Seal.State state, Optional<Seal> seal, String planSha256, String layoutSha256) {

    Findings.SealFinding finding() {
        return new Findings.SealFinding(
                word(),
                sentence(),
                seal.map(Seal::seed).orElse(null),
                seal.map(Seal::generator).orElse(null),
                seal.map(Seal::time).orElse(null),
                seal.map(Seal::version).orElse(null),
                planSha256,
                layoutSha256);
    }

    boolean holds() {
        return state == Seal.State.HOLDS;
    }

    private String word() {
        return switch (state) {
            case HOLDS -> "holds";
            case ABSENT -> "absent";
            case PLAN_CHANGED -> "plan changed";
            case LAYOUT_CHANGED -> "layout changed";
            case BOTH_CHANGED -> "both changed";
            case FRAMES_CHANGED -> "frames changed";
            case MOVES_CHANGED -> "moves changed";
            case FRAMES_AND_MOVES_CHANGED -> "frames and moves changed";
        };
    }

    /** What became of the seal, in words. */
    public String sentence() {
        return switch (state) {
            case HOLDS -> "Plan and layout are those that were sealed before sowing.";
            case ABSENT ->
                "There is no seal: the trial was laid out by hand, so nothing shows that chance decided which tray"
                        + " got what.";
            case PLAN_CHANGED -> "The plan was changed after it was sealed.";
            case LAYOUT_CHANGED -> "The layout was changed after it was sealed.";
            case BOTH_CHANGED -> "Plan and layout were changed after they were sealed.";
            case FRAMES_CHANGED -> "Where the counting frames lie (frames.csv) was changed after it was sealed.";
            case MOVES_CHANGED -> "How the trays move (rotation.csv) was changed after it was sealed.";
            case FRAMES_AND_MOVES_CHANGED ->
                "Where the counting frames lie and how the trays move (frames.csv, rotation.csv) were changed after they"
                        + " were sealed.";
        };
    }
}
