package org.fairtray.bench;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.fairtray.journal.Ledger;
import org.fairtray.journal.Slot;
import org.fairtray.journal.Standing;
import org.fairtray.trial.Reading;

/**
 * How many seeds lie in each frame, where that was said. Someone says it once, on one day; readings.csv has it in every line
 * then, for all frames, since a column that is filled in here and empty there could mean anything.
 */
final class FrameSeeds {
    private static final String SOWN = "sown";

    private final Map<Frame, String> said = new HashMap<>();

    private FrameSeeds() {}

    private record Frame(String tray, int number) {}

    /** What stands of it. */
    static FrameSeeds of(List<Standing> standings) {
        var seeds = new FrameSeeds();
        for (var standing : standings) {
            var sown = standing.text(SOWN);
            if (!sown.isEmpty()) {
                seeds.said.putIfAbsent(frame(standing.slot()), sown);
            }
        }
        return seeds;
    }

    private static Frame frame(Slot slot) {
        return new Frame(slot.tray(), slot.frame());
    }

    /** Readings that all say their seeds, if anyone said those of any frame. */
    List<Reading> on(List<Reading> readings, int planned) {
        return said.isEmpty()
                ? readings
                : readings.stream().map(r -> with(r, planned)).toList();
    }

    private Reading with(Reading reading, int planned) {
        var sown = said.get(new Frame(reading.tray(), reading.frame()));
        return new Reading(
                reading.tray(),
                reading.day(),
                reading.frame(),
                OptionalInt.of(sown == null ? planned : Integer.parseInt(sown)),
                reading.values(),
                reading.notes());
    }

    /** The cells of a file without the seeds that are in it only because {@link #on} put them there. */
    Map<Slot, Map<String, String>> without(Map<Slot, Map<String, String>> file, Ledger ledger, int planned) {
        if (said.isEmpty()) {
            return file;
        }
        var without = new LinkedHashMap<Slot, Map<String, String>>();
        file.forEach((slot, cells) -> {
            var own = new LinkedHashMap<>(cells);
            var known = said.getOrDefault(frame(slot), String.valueOf(planned));
            if (ledger.standing(slot).text(SOWN).isEmpty()) {
                own.remove(SOWN, known);
            }
            without.put(slot, own);
        });
        return without;
    }
}
