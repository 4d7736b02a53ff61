package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NearestTest {

    @ParameterizedTest(name = "{0} among {1}: {2}")
    @CsvSource({
        "lvels, name unit levels, levels",
        "LEVELS, name unit levels, levels",
        "applied to, applied_to, applied_to",
        "trohugh, through, through",
        "germ, through germinated, germinated",
        "8.0, 0 8, 8",
        "'8,0', 0 8, 8",
        "08, 0 8, 8",
        "80, 0 8,",
        "T1, T2 T3,",
        "T01, T02 T12, T02",
        "T1, t1 T10, t1",
        "blue, hemp coir pad,",
        "soak, soak, soak"
    })
    void isPlausiblyMeant(String found, String valid, String nearest) {
        assertEquals(Optional.ofNullable(nearest), Nearest.to(found, List.of(valid.split(" "))));
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"Sown, sown", "frames, frame", "trough, through", "thruogh, through", "germination,", "shown_by,"})
    void isAlmostTheName(String found, String name) {
        var names = List.of("frame", "sown", "germinated", "through");
        assertEquals(Optional.ofNullable(name), Nearest.almost(found, names));
    }
}
