package org.fairtray.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Place;

/** The files of what belongs to a layout beside who stands where: one for each where there is any. */
public final class HandlingFiles {
    static final List<String> NAMES = List.of(FramesFile.NAME, MovesFile.NAME);

    private HandlingFiles() {}

    /** Their texts by name, none for what there is nothing of. */
    static Map<String, String> texts(Place place, Handling handling) {
        var texts = new LinkedHashMap<String, String>();
        if (!handling.frames().isEmpty()) {
            texts.put(FramesFile.NAME, FramesFile.text(handling.frames()));
        }
        if (!handling.moves().isEmpty()) {
            texts.put(MovesFile.NAME, MovesFile.text(place, handling.moves()));
        }
        return texts;
    }

    /** The names of those that are written. */
    public static List<String> names(Place place, Handling handling) {
        return List.copyOf(texts(place, handling).keySet());
    }
}
