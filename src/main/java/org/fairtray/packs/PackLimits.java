package org.fairtray.packs;

import java.util.Map;
import org.fairtray.files.Problems;
import org.fairtray.files.TrialFiles;

/**
 * How large a pack may be. A stranger's pack is looked at, laid out again and analysed again, so that what would take hours
 * or fill the memory is refused before it is begun. No trial on a rack comes near.
 */
final class PackLimits {
    private static final int MEGABYTE = 1 << 20;

    static final int ARCHIVE = 64 * MEGABYTE;
    static final int ENTRIES = 64;
    static final int FILE = 32 * MEGABYTE;
    static final int ALL_FILES = 64 * MEGABYTE;
    static final int DESCRIPTION = MEGABYTE;
    static final int RESULTS = 16 * MEGABYTE;

    private static final int PLAN = 256 << 10;
    private static final int SEAL = 64 << 10;
    private static final int TRAYS = 5_000;
    private static final int LINES = 100_000;
    private static final int LINE = 10_000;
    private static final int COLUMNS = 100;
    private static final int PLACES = 20_000;
    private static final int TREATMENTS = 1_000;
    private static final int OUTCOMES = 20;
    /** Trays times treatments: an analysis is as long as its table and as wide. */
    private static final int TABLE = 500_000;

    /** Bytes that a file may have at most, where that is less than for others. */
    private static final Map<String, Integer> SMALLER = Map.of(
            PackNames.DESCRIPTION, DESCRIPTION, PackNames.PLAN, PLAN, PackNames.SEAL, SEAL, PackNames.RESULTS, RESULTS);

    /** Lines that a table may have at most, its header among them. */
    private static final Map<String, Integer> TABLES = Map.of(
            PackNames.LAYOUT, TRAYS + 1,
            PackNames.READINGS, LINES,
            PackNames.FRAMES, LINES,
            PackNames.MOVES, LINES,
            PackNames.PHOTOS, ENTRIES);

    private PackLimits() {}

    /** Bytes that a file may have at most. */
    static int of(String name) {
        return SMALLER.getOrDefault(name, FILE);
    }

    /** Looks at the bytes of tables, before anything is made of them. */
    static void checkTables(Map<String, byte[]> files, Problems problems) {
        TABLES.forEach((name, most) -> {
            if (files.containsKey(name)) {
                checkTable(name, files.get(name), most, problems);
            }
        });
    }

    private static void checkTable(String name, byte[] table, int most, Problems problems) {
        var size = TableSize.of(table);
        most(size.lines(), "lines", name, most, problems);
        most(size.columns(), "columns", name, COLUMNS, problems);
        most(size.longestLine(), "bytes in a line", name, LINE, problems);
    }

    /** Looks at what a plan asks for, and at what it would take to analyse. */
    static void check(TrialFiles files, Problems problems) {
        var trial = files.trial();
        most(trial.place().trays(), "places for trays", PackNames.PLAN, PLACES, problems);
        most(trial.treatments().size(), "treatments", PackNames.PLAN, TREATMENTS, problems);
        most(trial.outcomes().size(), "outcomes", PackNames.PLAN, OUTCOMES, problems);
        int trays = files.layout().map(l -> l.trays().size()).orElse(0);
        most(trays * trial.treatments().size(), "trays times treatments", PackNames.LAYOUT, TABLE, problems);
    }

    private static void most(int count, String what, String name, int most, Problems problems) {
        if (count > most) {
            problems.add(0, name + " with " + count + " " + what, "at most " + most);
        }
    }
}
