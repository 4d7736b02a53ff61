package org.fairtray.files;

import java.util.List;
import org.fairtray.trial.FrameSpot;

/** frames.csv: where each counting frame lies in its tray. */
final class FramesFile {
    static final String NAME = "frames.csv";
    static final List<String> COLUMNS = List.of("tray", "frame", "left_cm", "front_cm");

    private FramesFile() {}

    static String text(List<FrameSpot> frames) {
        var csv = new CsvText();
        csv.add(COLUMNS);
        frames.forEach(f -> csv.add(List.of(
                f.tray(), Integer.toString(f.frame()), Double.toString(f.fromLeft()), Double.toString(f.fromFront()))));
        return csv.text();
    }
}
