package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.fairtray.trial.Place;
import org.junit.jupiter.api.Test;

class TextbookTest {
    private static Place.Level level(String name, int count) {
        return new Place.Level(name, count, Optional.empty());
    }

    private static Place.Level across(String name, int count, String other) {
        return new Place.Level(name, count, Optional.of(other));
    }

    private static String place(Place.Level... levels) {
        return Textbook.place(new Place(List.of(levels)));
    }

    @Test
    void nestedAndCrossedLevels() {
        assertEquals("spot (6)", place(level("spot", 6)));
        assertEquals("shelf (2) → stack (3) → spot (4)", place(level("shelf", 2), level("stack", 3), level("spot", 4)));
        assertEquals("(stack (3) × height (4))", place(level("stack", 3), across("height", 4, "stack")));
        assertEquals(
                "shelf (2) → (stack (3) × height (4))",
                place(level("shelf", 2), level("stack", 3), across("height", 4, "stack")));
        assertEquals(
                "(row (2) × column (3)) → pot (4)",
                place(level("row", 2), across("column", 3, "row"), level("pot", 4)));
        assertEquals(
                "(stack (2) → layer (3) × side (2))",
                place(level("stack", 2), level("layer", 3), across("side", 2, "stack")));
    }

    @Test
    void namesHaveSources() {
        assertEquals("Fisher (1935), The Design of Experiments, chapter 4", Textbook.source("randomised blocks", 1));
        assertTrue(Textbook.source("split-plot", 2).startsWith("Yates (1935), Complex experiments"));
        assertTrue(Textbook.source("split-plot", 2)
                .endsWith("; for factorials: Yates (1937), The Design and Analysis of Factorial Experiments"));
        assertEquals("Bailey (2008), Design of Comparative Experiments", Textbook.source("multi-way blocks", 1));
    }
}
