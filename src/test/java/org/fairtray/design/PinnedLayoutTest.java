package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.Collectors;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The same plan and seed give the same layout for ever: shared trials are verified by drawing them again. */
class PinnedLayoutTest {

    @ParameterizedTest(name = "{0}; {1} {2}, seed {3}")
    @CsvSource({
        "spot 6, soak@tray: 0 8, , 1, 0 0 8 8 8 0",
        "shelf 2 / stack 2 / spot 2, cover@stack: 0 3, soak@tray: 0 8, 42, 3/8 3/0 0/8 0/0 0/8 0/0 3/0 3/8",
        "row 4 / column 4 across row, mat@tray: a b c d, , 42, c d a b b a c d d c b a a b d c",
        "bench 2 / row 2 / column 3 across row, light@row: dim bright, water@column: a b c, -7, bright/a bright/b bright/c dim/a dim/b dim/c bright/a bright/c bright/b dim/a dim/c dim/b",
    })
    void isDrawnAsBefore(String place, String one, String other, long seed, String layout) {
        var trial = other == null ? Plans.plan(place, one) : Plans.plan(place, one, other);
        var drawn = Randomisation.of(trial).draw(Generator.of(seed)).trays().stream()
                .map(t -> String.join("/", t.treatment().levels().values()))
                .collect(Collectors.joining(" "));
        assertEquals(layout, drawn);
    }
}
