package org.fairtray.jobs;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;

/**
 * What farms counted of a trial that they sowed together, brought back into its own folder.
 *
 * @param trial its title
 * @param parts how many came in
 * @param added readings that are new
 * @param known readings that were there already, the same
 * @param missing trays of which nothing was read yet
 */
public record Gather(String trial, int parts, int added, int known, List<String> missing) {
    public Gather {
        missing = List.copyOf(missing);
    }

    private record Slot(String tray, int day, int frame) {}

    /**
     * Adds the readings of parts to those of the whole; what is there already is kept.
     *
     * @param parts by the name that messages call them
     * @throws ProblemsException with every part that isn't one of this trial, and every reading that differs from one that
     *     is there; nothing is written then
     */
    public static Gather of(TrialFolder whole, Map<String, TrialFiles> parts) {
        var files = whole.read();
        var layout = Needed.layout(files);
        var problems = new ArrayList<Problem>();
        var trays = layout.trays().stream().collect(Collectors.toMap(Tray::code, t -> t));
        parts.forEach((name, part) -> check(name, part, files, trays, problems));
        if (!problems.isEmpty()) {
            throw new ProblemsException(problems);
        }
        var all = new LinkedHashMap<Slot, Reading>();
        files.readings().forEach(r -> all.put(slot(r), r));
        Set<String> notes = new LinkedHashSet<>(files.noteColumns());
        int before = all.size();
        int known = 0;
        for (var part : parts.entrySet()) {
            notes.addAll(part.getValue().noteColumns());
            for (Reading reading : part.getValue().readings()) {
                var there = all.putIfAbsent(slot(reading), reading);
                if (there != null && !sameCounts(there, reading)) {
                    problems.add(differs(part.getKey(), reading));
                } else if (there != null) {
                    known++;
                }
            }
        }
        if (!problems.isEmpty()) {
            throw new ProblemsException(problems);
        }
        var order = new HashMap<String, Integer>();
        layout.trays().forEach(t -> order.put(t.code(), order.size()));
        var readings = all.values().stream()
                .sorted(Comparator.comparingInt((Reading r) -> order.get(r.tray()))
                        .thenComparingInt(Reading::day)
                        .thenComparingInt(Reading::frame))
                .toList();
        if (all.size() > before) {
            whole.writeReadings(files.trial(), readings, List.copyOf(notes), true);
        }
        var read = readings.stream().map(Reading::tray).collect(Collectors.toSet());
        return new Gather(
                files.trial().title(),
                parts.size(),
                all.size() - before,
                known,
                layout.trays().stream()
                        .map(Tray::code)
                        .filter(c -> !read.contains(c))
                        .toList());
    }

    private static Slot slot(Reading reading) {
        return new Slot(reading.tray(), reading.day(), reading.frame());
    }

    private static boolean sameCounts(Reading one, Reading other) {
        return one.values().equals(other.values()) && one.sown().equals(other.sown());
    }

    private static void check(
            String name, TrialFiles part, TrialFiles whole, Map<String, Tray> trays, List<Problem> problems) {
        if (!part.planSha256().equals(whole.planSha256())) {
            problems.add(problem(
                    name, "another plan", "a part of " + whole.trial().title() + " with its plan.yaml unchanged"));
            return;
        }
        for (Tray tray : Needed.layout(part).trays()) {
            if (!tray.equals(trays.get(tray.code()))) {
                problems.add(problem(
                        name,
                        "tray " + tray.code() + " with another place or treatment than in the whole layout",
                        "the layout that split wrote"));
            }
        }
    }

    private static Problem differs(String name, Reading reading) {
        return problem(
                name,
                "other counts of tray " + reading.tray() + ", day " + reading.day() + ", frame " + reading.frame()
                        + " than are there already",
                "the same; settle with who counted which is right, and correct one of the two");
    }

    private static Problem problem(String file, String found, String expected) {
        return new Problem(file, 0, found, expected, Optional.empty());
    }

    /** What came of it, line by line. */
    public List<String> forPeople() {
        var lines = new ArrayList<String>();
        lines.add(trial + ": " + added + (added == 1 ? " reading" : " readings") + " added from " + parts
                + (parts == 1 ? " part" : " parts") + (known == 0 ? "." : ", " + known + " were there already."));
        lines.add(
                missing.isEmpty()
                        ? "Every tray was read."
                        : "Nothing yet of " + missing.size() + " trays: "
                                + missing.stream().limit(12).collect(Collectors.joining(", "))
                                + (missing.size() > 12 ? " ..." : "") + ".");
        return lines;
    }
}
