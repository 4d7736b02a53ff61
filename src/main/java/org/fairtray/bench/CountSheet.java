package org.fairtray.bench;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.files.ReadingCells;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * What a counter needs to know: what to count, where, on which days; nothing of what a tray got.
 *
 * @param trial its title
 * @param frames counting frames in a tray
 * @param cumulative whether a count is all so far
 * @param definitions what counts as what, in the plan's words, by column
 * @param trays in walking order at sowing
 * @param walks the trays in walking order of each day, where trays move; else empty
 */
public record CountSheet(
        String trial,
        List<Integer> days,
        int frames,
        int seedsPerFrame,
        boolean cumulative,
        Map<String, String> definitions,
        List<Column> columns,
        List<Place> trays,
        Map<Integer, List<String>> walks) {

    /**
     * A column to fill in.
     *
     * @param kind {@code count} or {@code measure}
     * @param of the column that a count can't exceed, or {@code sown}; null for a measure
     * @param days on which it is wanted
     */
    public record Column(String name, String kind, String of, List<Integer> days) {}

    /**
     * A tray.
     *
     * @param where it stands at sowing, in words
     * @param stands where it stands on each day, where trays move; else empty
     */
    public record Place(String tray, String where, Map<Integer, String> stands) {}

    static CountSheet of(Trial trial, Layout layout, Handling handling) {
        return new CountSheet(
                trial.title(),
                trial.counting().days(),
                trial.counting().framesPerTray(),
                trial.counting().seedsPerFrame(),
                trial.counting().cumulative(),
                trial.definitions(),
                columns(trial),
                places(trial, layout, handling),
                walks(trial, layout, handling));
    }

    private static Map<Integer, List<String>> walks(Trial trial, Layout layout, Handling handling) {
        Map<Integer, List<String>> walks = new LinkedHashMap<>();
        if (!handling.moves().isEmpty()) {
            for (int day : trial.counting().days()) {
                walks.put(
                        day,
                        Layout.walked(handling.on(day, layout.trays())).stream()
                                .map(Tray::code)
                                .toList());
            }
        }
        return walks;
    }

    private static List<Column> columns(Trial trial) {
        var asked = new ReadingCells(trial).columns();
        var names = asked.stream().map(ReadingCells.Column::name).collect(Collectors.toSet());
        return asked.stream().map(c -> column(trial, c, names)).toList();
    }

    private static Column column(Trial trial, ReadingCells.Column column, Set<String> names) {
        if (column.of().isEmpty()) {
            return new Column(column.name(), "measure", null, measured(trial, column.name()));
        }
        var of = column.of().filter(names::contains).orElse("sown");
        return new Column(column.name(), "count", of, trial.counting().days());
    }

    private static List<Integer> measured(Trial trial, String name) {
        return trial.outcomes().stream()
                .filter(o -> o.name().equals(name))
                .map(Outcome::day)
                .distinct()
                .sorted()
                .toList();
    }

    private static List<Place> places(Trial trial, Layout layout, Handling handling) {
        var walked = Layout.walked(layout.trays());
        Map<String, Map<Integer, String>> stands = new LinkedHashMap<>();
        if (!handling.moves().isEmpty()) {
            for (int day : trial.counting().days()) {
                handling.on(day, walked)
                        .forEach(t -> stands.computeIfAbsent(t.code(), c -> new LinkedHashMap<>())
                                .put(day, trial.place().words(t.stand())));
            }
        }
        return walked.stream()
                .map(t -> new Place(t.code(), trial.place().words(t.stand()), stands.getOrDefault(t.code(), Map.of())))
                .toList();
    }

    /** How many trays lack a figure on a day. */
    int toDo(int day, List<CellNow> cells) {
        var wanted = columns.stream().filter(c -> c.days().contains(day)).toList();
        var done = new LinkedHashMap<String, Set<Integer>>();
        cells.stream()
                .filter(c -> c.day() == day
                        && wanted.stream().allMatch(w -> c.values().containsKey(w.name())))
                .forEach(c ->
                        done.computeIfAbsent(c.tray(), t -> new HashSet<>()).add(c.frame()));
        var left = new ArrayList<>(trays);
        left.removeIf(t -> done.getOrDefault(t.tray(), Set.of()).size() == frames);
        return left.size();
    }
}
