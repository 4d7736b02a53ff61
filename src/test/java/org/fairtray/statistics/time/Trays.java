package org.fairtray.statistics.time;

import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.params.converter.SimpleArgumentConverter;

/** Trays in cells of reference tables: days; new events; seeds, with bars between trays. */
final class Trays extends SimpleArgumentConverter {
    @Override
    protected Object convert(Object cell, Class<?> list) {
        return Arrays.stream(((String) cell).split("\\|", -1)).map(Trays::tray).toList();
    }

    static DayCounts tray(String text) {
        var parts = text.split(";", -1);
        return new DayCounts(
                words(parts[0]).stream().map(Double::valueOf).toList(),
                words(parts[1]).stream().map(Long::valueOf).toList(),
                Long.parseLong(parts[2].trim()));
    }

    private static List<String> words(String text) {
        return List.of(text.trim().split(" +", -1));
    }
}
