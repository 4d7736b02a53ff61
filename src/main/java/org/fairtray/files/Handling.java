package org.fairtray.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Move;
import org.fairtray.trial.Place;

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

    /** Its files by name, none for what there is nothing of. */
    Map<String, String> texts(Place place) {
        var texts = new LinkedHashMap<String, String>();
        if (!frames.isEmpty()) {
            texts.put(FramesFile.NAME, FramesFile.text(frames));
        }
        if (!moves.isEmpty()) {
            texts.put(MovesFile.NAME, MovesFile.text(place, moves));
        }
        return texts;
    }

    /** The names of the files it is written to at a place. */
    public List<String> names(Place place) {
        return List.copyOf(texts(place).keySet());
    }
}
