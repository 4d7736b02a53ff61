package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Move;

/**
 * What is drawn beside a layout, each in a file of its own where there is any.
 *
 * @param frames where counting frames lie
 * @param moves which tray moves where
 */
public record Handling(List<FrameSpot> frames, List<Move> moves) {
    /** Nothing beside the layout. */
    public static final Handling NONE = new Handling(List.of(), List.of());

    static final List<String> NAMES = List.of(FramesFile.NAME, MovesFile.NAME);

    public Handling {
        frames = List.copyOf(frames);
        moves = List.copyOf(moves);
    }

    /** The names of the files it is written to. */
    public List<String> names() {
        var names = new ArrayList<String>();
        if (!frames.isEmpty()) {
            names.add(FramesFile.NAME);
        }
        if (!moves.isEmpty()) {
            names.add(MovesFile.NAME);
        }
        return names;
    }
}
