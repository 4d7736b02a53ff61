package org.fairtray.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Move;
import org.fairtray.trial.Place;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** rotation.csv: which tray moves where on which day. */
final class MovesFile {
    static final String NAME = "rotation.csv";

    private final Place place;
    private final Rotation rotation;
    /** The trays by code; empty where the layout is broken or missing. */
    private final Optional<Map<String, Tray>> trays;

    private final Problems problems;
    private final Map<List<Object>, Integer> lines = new HashMap<>();

    private MovesFile(Trial trial, Rotation rotation, Optional<Layout> layout, Problems problems) {
        this.place = trial.place();
        this.rotation = rotation;
        this.trays = layout.map(l -> l.trays().stream()
                .collect(Collectors.toMap(Tray::code, Function.identity(), (a, b) -> a, LinkedHashMap::new)));
        this.problems = problems;
    }

    private static List<String> columns(Place place) {
        var columns = new ArrayList<>(List.of("day", "tray"));
        columns.addAll(place.names());
        return columns;
    }

    static String text(Place place, List<Move> moves) {
        var csv = new CsvText();
        csv.add(columns(place));
        for (var move : moves) {
            var cells = new ArrayList<>(List.of(Integer.toString(move.day()), move.tray()));
            move.to().at().forEach(n -> cells.add(n.toString()));
            csv.add(cells);
        }
        return csv.text();
    }

    /**
     * Reads how trays move; what is wrong is noted in {@code problems}.
     *
     * @param layout empty where it is broken or missing
     * @return the moves whose lines are sound, in the file's order
     */
    static List<Move> read(Trial trial, StoredFile file, Problems problems, Optional<Layout> layout) {
        if (trial.rotation().isEmpty()) {
            problems.add(0, "moves, and a plan without rotation", "rotation in plan.yaml, or no such file");
            return List.of();
        }
        var reader = new MovesFile(trial, trial.rotation().get(), layout, problems);
        var sheet = Sheet.read(file, problems);
        sheet.only(columns(trial.place()));
        var moves = sheet.rows().stream()
                .map(reader::move)
                .flatMap(Optional::stream)
                .toList();
        if (problems.none()) {
            reader.checkAll(moves);
        }
        return moves;
    }

    private Optional<Move> move(Sheet.Row row) {
        var day = row.cell("day").flatMap(this::day);
        var tray = row.cell("tray").flatMap(c -> c.tray(trays.map(Map::keySet)));
        var at = new ArrayList<Integer>();
        for (var level : place.levels()) {
            row.cell(level.name()).flatMap(c -> c.number(1, level.count())).ifPresent(at::add);
        }
        return day.isPresent()
                        && tray.isPresent()
                        && at.size() == place.levels().size()
                ? sound(new Move(day.get(), tray.get(), new Stand(at)), row)
                : Optional.empty();
    }

    private Optional<Integer> day(Cell cell) {
        return cell.day()
                .flatMap(day -> rotation.days().contains(day)
                        ? Optional.of(day)
                        : cell.refuse("a day of the plan's rotation: "
                                + Wording.oneOf(rotation.days().stream()
                                        .map(String::valueOf)
                                        .toList())));
    }

    private Optional<Move> sound(Move move, Sheet.Row row) {
        return keepsOtherPlaces(move, row)
                        && once(List.of(move.day(), move.tray()), row.line(), "tray " + Wording.quote(move.tray()))
                        && once(List.of(move.day(), move.to()), row.line(), "a place")
                ? Optional.of(move)
                : Optional.empty();
    }

    private boolean keepsOtherPlaces(Move move, Sheet.Row row) {
        var names = place.names();
        var tray = trays.map(t -> t.get(move.tray()));
        var moved = IntStream.range(0, names.size())
                .filter(i -> !names.get(i).equals(rotation.level()))
                .filter(i -> tray.isPresent()
                        && !tray.get().stand().at().get(i).equals(move.to().at().get(i)))
                .mapToObj(names::get)
                .findFirst();
        moved.flatMap(row::cell)
                .ifPresent(c -> c.refuse(
                        "that of layout.csv, " + tray.orElseThrow().stand().at().get(names.indexOf(c.column()))
                                + ": trays change nothing but " + rotation.level()));
        return moved.isEmpty();
    }

    private boolean once(List<Object> what, int line, String name) {
        var before = lines.putIfAbsent(what, line);
        if (before != null) {
            problems.add(
                    line,
                    name + " that is taken on day " + what.get(0) + " in line " + before,
                    "each tray and each place once a day");
        }
        return before == null;
    }

    private void checkAll(List<Move> moves) {
        for (int day : rotation.days()) {
            var moved =
                    moves.stream().filter(m -> m.day() == day).map(Move::tray).collect(Collectors.toSet());
            var lacking = trays.orElse(Map.of()).keySet().stream()
                    .filter(t -> !moved.contains(t))
                    .toList();
            if (!lacking.isEmpty()) {
                problems.add(
                        0,
                        "no line on day " + day + " for tray " + Wording.list(lacking),
                        "a line for each tray on each day, for one that stays too");
            }
        }
    }
}
