package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.trial.Move;
import org.fairtray.trial.Place;

/** rotation.csv: which tray moves where on which day. */
final class MovesFile {
    static final String NAME = "rotation.csv";

    private MovesFile() {}

    static String text(Place place, List<Move> moves) {
        var csv = new CsvText();
        var columns = new ArrayList<>(List.of("day", "tray"));
        columns.addAll(place.names());
        csv.add(columns);
        for (var move : moves) {
            var cells = new ArrayList<>(List.of(Integer.toString(move.day()), move.tray()));
            move.to().at().forEach(n -> cells.add(n.toString()));
            csv.add(cells);
        }
        return csv.text();
    }
}
