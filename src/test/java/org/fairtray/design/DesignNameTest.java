package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class DesignNameTest {

    @ParameterizedTest(name = "{3}: {0}; {1} {2}")
    @CsvSource({
        "spot 6, soak@tray: 0 8, , completely randomised",
        "spot 8, soak@tray: 0 8, mat@tray: a b, completely randomised",
        "shelf 1 / spot 6, soak@tray: 0 8, , completely randomised",
        "shelf 2 / spot 3, mat@tray: a b c, , randomised blocks",
        "shelf 2 / spot 4, soak@tray: 0 8, , randomised blocks",
        "row 3 / column 3 across row, mat@tray: a b c, , Latin square",
        "row 2 / column 4 across row, soak@tray: 0 8, , Latin rectangles",
        "shelf 2 / stack 2 / spot 2, cover@stack: 0 3, soak@tray: 0 8, split-plot",
        "bench 2 / row 2 / column 3 across row, light@row: dim bright, water@column: a b c, strip-plot",
        "stack 4 / spot 3, cover@stack: 0 3, , completely randomised",
        "shelf 2 / stack 2 / spot 3, cover@stack: 0 3, , randomised blocks",
    })
    void isTheTextbooksTerm(String place, String one, String other, String name) {
        var trial = other == null ? Plans.plan(place, one) : Plans.plan(place, one, other);
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        assertEquals(name, DesignName.of(Structure.of(trial, layout.trays())).name());
    }

    @Test
    void splitsToAnyDepth() {
        var trial = Plans.plan(
                "shelf 2 / stack 2 / tier 2 / spot 2", "cover@stack: 0 3", "light@tier: dim bright", "soak@tray: 0 8");
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        var name = DesignName.of(Structure.of(trial, layout.trays()));
        assertEquals("split-split-plot", name.name());
        assertEquals("2 × 2 × 2 factorial", name.treatments());
        assertEquals(
                "A split-split-plot layout: cover on 4 × stack, light on 8 × tier, soak on 16 × tray; differences between"
                        + " shelf (2) are set aside.",
                name.sentence());
    }
}
