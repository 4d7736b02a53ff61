package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.files.PlanValue.Range;
import org.fairtray.trial.Area;
import org.fairtray.trial.Counting;

/** Reads the sizes of trays and of the counting frames in them. */
final class FrameReader {
    private FrameReader() {}

    /** What could be read; margin is 0 where none is given. */
    record Sizes(Optional<Area> tray, Optional<Area> frame, double margin) {}

    /** Reads them from the keys of {@code counting}. */
    static Sizes read(Keys keys) {
        var tray = keys.optional("tray_cm").flatMap(FrameReader::area);
        var frame = keys.optional("frame_cm").flatMap(FrameReader::area);
        if (keys.optional("frame_cm").isPresent()) {
            keys.required("tray_cm");
        } else {
            keys.optional("margin_cm").ifPresent(v -> v.refuse("a margin only beside frame_cm"));
        }
        var margin =
                keys.optional("margin_cm").map(v -> halves(v, Range.AMOUNT)).orElse(OptionalDouble.empty());
        return tray.isPresent()
                ? new Sizes(tray, frame, margin.orElse(0))
                : new Sizes(Optional.empty(), Optional.empty(), 0);
    }

    /** What would have room in a tray. */
    static String room(Counting counting) {
        var tray = counting.tray().orElseThrow();
        return "frames for which there is room: %s in a tray of %s by %s cm with a margin of %s cm, not %d"
                .formatted(
                        counting.framesThatFit() == 0 ? "none" : counting.framesThatFit(),
                        Area.cm(tray.across()),
                        Area.cm(tray.deep()),
                        Area.cm(counting.margin()),
                        counting.framesPerTray());
    }

    private static Optional<Area> area(PlanValue value) {
        var sides = new ArrayList<Double>();
        var items = value.items("two sides in cm, from left to right and from front to back", value.what());
        if (!items.isEmpty() && items.size() != 2) {
            value.problems()
                    .add(
                            value.line(),
                            "a list of " + items.size() + " for " + value.what(),
                            "two sides in cm, such as [50, 25]");
        }
        items.forEach(i -> halves(i, Range.POSITIVE).ifPresent(sides::add));
        return List.of(items.size(), sides.size()).equals(List.of(2, 2))
                ? Optional.of(new Area(sides.get(0), sides.get(1)))
                : Optional.empty();
    }

    /** A length that a ruler shows well: whole or half centimetres, at most 10 m. */
    private static OptionalDouble halves(PlanValue value, Range range) {
        var number = value.number(range);
        if (number.isPresent() && (number.getAsDouble() * 2 % 1 != 0 || number.getAsDouble() > 1000)) {
            value.refuse("whole or half centimetres, at most 1000");
            return OptionalDouble.empty();
        }
        return number;
    }
}
