package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.fairtray.trial.Counting;

/** Reads when and how trays are counted. */
final class CountingReader {
    static final List<String> KEYS =
            List.of("days", "frames_per_tray", "seeds_per_frame", "counts", "tray_cm", "frame_cm", "margin_cm");
    static final int MOST_SEEDS = 1_000_000;
    static final int LAST_DAY = 3650;
    private static final int MOST_FRAMES = 1000;
    private static final String CUMULATIVE = "cumulative";
    private static final List<String> COUNTS = List.of(CUMULATIVE, "new");

    private CountingReader() {}

    /** @param seeds whether the seeds of a frame must be given, because an outcome counts them */
    static Optional<Counting> read(PlanValue value, boolean seeds) {
        return value.keys(KEYS).flatMap(keys -> {
            var days = keys.required("days").map(CountingReader::days).orElse(List.of());
            var frames = orOne(keys.optional("frames_per_tray"), MOST_FRAMES);
            var given = seeds ? keys.required("seeds_per_frame") : keys.optional("seeds_per_frame");
            var perFrame = orOne(given, MOST_SEEDS);
            var counts = keys.optional("counts")
                    .map(v -> v.oneOf("kind of counts", COUNTS))
                    .orElse(Optional.of(CUMULATIVE));
            var sizes = FrameReader.read(keys);
            var counting =
                    new Counting(List.of(0), frames.orElse(1), 1, true, sizes.tray(), sizes.frame(), sizes.margin());
            if (counting.framesThatFit() < counting.framesPerTray()) {
                keys.required("frame_cm").ifPresent(v -> v.refuse(FrameReader.room(counting)));
            }
            boolean sound = !days.isEmpty() && frames.isPresent() && perFrame.isPresent() && counts.isPresent();
            return sound
                    ? Optional.of(new Counting(
                            days,
                            frames.getAsInt(),
                            perFrame.getAsInt(),
                            counts.get().equals(CUMULATIVE),
                            sizes.tray(),
                            sizes.frame(),
                            sizes.margin()))
                    : Optional.empty();
        });
    }

    private static OptionalInt orOne(Optional<PlanValue> value, int most) {
        return value.map(v -> v.whole(1, most)).orElse(OptionalInt.of(1));
    }

    /** The days, or none if any is wrong. */
    private static List<Integer> days(PlanValue value) {
        return days(value, 0);
    }

    /** Rising days from a first one on, or none if any is wrong. */
    static List<Integer> days(PlanValue value, int first) {
        var items = value.items("days after sowing", "day");
        var days = new ArrayList<Integer>();
        boolean rising = true;
        for (var item : items) {
            var day = item.whole(first, LAST_DAY);
            if (day.isPresent() && !days.isEmpty() && day.getAsInt() <= days.get(days.size() - 1)) {
                item.refuse("rising days, above " + days.get(days.size() - 1));
                rising = false;
            }
            day.ifPresent(days::add);
        }
        return rising && days.size() == items.size() ? List.copyOf(days) : List.of();
    }
}
