package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.files.TrialFiles;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every exchange that keeps the structure of the place is drawn, equally often, and no other. */
class PlaceSymmetriesTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                // The trays of a row: 4!
                "{name: spot, count: 4}; 1,2,3,4; 24",
                // Shelves 2!, and the spots of each shelf 2! times 2!
                "{name: shelf, count: 2}, {name: spot, count: 2}; 1.1,1.2,2.1,2.2; 8",
                // Whole rows 2! and whole columns 3!
                "{name: row, count: 2}, {name: column, count: 3, across: row}; 1.1,1.2,1.3,2.1,2.2,2.3; 12",
                // With an empty spot only the spots of each shelf: 2! times 3!
                "{name: shelf, count: 2}, {name: spot, count: 3}; 1.1,1.3,2.1,2.2,2.3; 12",
                // With an empty place in rows and columns that cross, none but that which leaves all as it is
                "{name: row, count: 2}, {name: column, count: 2, across: row}; 1.1,1.2,2.1; 1"
            })
    void allAndOnlyThese(String place, String stands, int expected) {
        var header = new StringBuilder("tray");
        var names = place.split("name: ", -1);
        for (int i = 1; i < names.length; i++) {
            header.append(",").append(names[i], 0, names[i].indexOf(','));
        }
        var layout = new StringBuilder(header + ",soak\n");
        var all = stands.split(",", -1);
        for (int i = 0; i < all.length; i++) {
            layout.append("T")
                    .append(i)
                    .append(",")
                    .append(all[i].replace('.', ','))
                    .append(",")
                    .append(i % 2 * 8);
            layout.append("\n");
        }
        var plan = "{format: 1, trial: A, factors: [{name: soak, levels: [0, 8]}], place: [" + place
                + "], counting: {days: [1]}, outcomes: [{name: height_mm, kind: measure, day: 1}]}";
        var files = TrialFiles.of(Map.of(
                "plan.yaml", plan.getBytes(StandardCharsets.UTF_8),
                "layout.csv", layout.toString().getBytes(StandardCharsets.UTF_8)));
        var structure = Structure.of(files.trial(), files.layout().orElseThrow().trays());

        var times = new HashMap<String, Integer>();
        int draws = 400 * expected;
        PlaceSymmetries.of(structure).draw(draws, Generator.of(3), source -> {
            assertEquals(all.length, IntStream.of(source).distinct().count(), "each tray once");
            times.merge(Arrays.toString(source), 1, Integer::sum);
        });
        assertEquals(expected, times.size());
        // Five standard deviations of a binomial count around 400.
        assertTrue(times.values().stream().allMatch(n -> Math.abs(n - 400) <= 100), times::toString);
    }
}
