package org.fairtray.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** layout.csv: one line for each tray, where it stands and what it gets. */
public final class LayoutFile {
    static final String NAME = "layout.csv";

    private final Trial trial;
    private final Problems problems;
    private final Map<String, Integer> codes = new HashMap<>();
    private final Map<Stand, Integer> stands = new HashMap<>();
    /** Factors of which several trays get one level together. */
    private final List<Factor> shared;

    private final Map<String, Given> given = new HashMap<>();
    private final Set<String> seen = new LinkedHashSet<>();

    private LayoutFile(Trial trial, Problems problems) {
        this.trial = trial;
        this.problems = problems;
        this.shared = trial.factors().stream()
                .filter(f -> !trial.place().isTray(f.appliedTo()))
                .toList();
    }

    /** The level that a unit of a place level got, and the line that says so. */
    private record Given(String level, int line) {}

    /**
     * The columns in their order: tray, place levels, batches, factors.
     *
     * @param trial the plan
     */
    public static List<String> columns(Trial trial) {
        var columns = new ArrayList<String>();
        columns.add(Place.TRAY);
        columns.addAll(trial.place().names());
        trial.batches().forEach(b -> columns.add(b.name()));
        columns.addAll(trial.factorNames());
        return List.copyOf(columns);
    }

    /** The layout as the text of layout.csv, trays in the layout's order. */
    public static String text(Trial trial, Layout layout) {
        var csv = new CsvText();
        csv.add(columns(trial));
        for (var tray : layout.trays()) {
            var cells = new ArrayList<String>();
            cells.add(tray.code());
            tray.stand().at().forEach(n -> cells.add(n.toString()));
            trial.batches().forEach(b -> cells.add(tray.batches().get(b.name()).toString()));
            trial.factorNames().forEach(f -> cells.add(tray.treatment().level(f)));
            csv.add(cells);
        }
        return csv.text();
    }

    /**
     * Reads the layout; what is wrong is noted in {@code problems}.
     *
     * @param codes receives every tray code that stands in the file, whatever else is wrong with its line
     * @return the trays whose lines are sound
     */
    static List<Tray> read(Trial trial, StoredFile file, Problems problems, Set<String> codes) {
        var reader = new LayoutFile(trial, problems);
        var sheet = Sheet.read(file, problems);
        sheet.only(columns(trial));
        var trays = sheet.rows().stream()
                .map(reader::tray)
                .flatMap(Optional::stream)
                .toList();
        if (sheet.rows().isEmpty() && problems.none()) {
            problems.add(0, "no tray", "a line for every tray");
        }
        codes.addAll(reader.seen);
        return trays;
    }

    private Optional<Tray> tray(Sheet.Row row) {
        var code = row.cell(Place.TRAY).flatMap(Cell::word).flatMap(c -> once(c, row.line()));
        var stand = stand(row);
        var batches = batches(row);
        var treatment = treatment(row);
        if (stand.isPresent() && treatment.isPresent()) {
            checkUnits(stand.get(), treatment.get(), row.line());
        }
        boolean sound = code.isPresent() && stand.isPresent() && batches.isPresent() && treatment.isPresent();
        return sound
                ? Optional.of(new Tray(code.get(), stand.get(), batches.get(), treatment.get()))
                : Optional.empty();
    }

    private Optional<String> once(String code, int line) {
        seen.add(code);
        var before = codes.putIfAbsent(code, line);
        if (before != null) {
            problems.add(
                    line,
                    "tray " + Wording.quote(code) + ", which is in line " + before + " already",
                    "a code of its own for each tray");
        }
        return before == null ? Optional.of(code) : Optional.empty();
    }

    private Optional<Stand> stand(Sheet.Row row) {
        var at = new ArrayList<Integer>();
        for (var level : trial.place().levels()) {
            row.cell(level.name()).flatMap(c -> c.number(1, level.count())).ifPresent(at::add);
        }
        return at.size() == trial.place().levels().size() ? free(new Stand(at), row.line()) : Optional.empty();
    }

    private Optional<Stand> free(Stand stand, int line) {
        var before = stands.putIfAbsent(stand, line);
        if (before != null) {
            problems.add(
                    line,
                    "a tray at " + trial.place().words(stand) + ", where that of line " + before + " stands already",
                    "one tray at one place");
        }
        return before == null ? Optional.of(stand) : Optional.empty();
    }

    private Optional<Map<String, Integer>> batches(Sheet.Row row) {
        var numbers = new LinkedHashMap<String, Integer>();
        for (Batch batch : trial.batches()) {
            row.cell(batch.name())
                    .flatMap(c -> c.number(1, batch.count()))
                    .ifPresent(n -> numbers.put(batch.name(), n));
        }
        return numbers.size() == trial.batches().size() ? Optional.of(numbers) : Optional.empty();
    }

    private Optional<Treatment> treatment(Sheet.Row row) {
        var levels = new LinkedHashMap<String, String>();
        for (Factor factor : trial.factors()) {
            row.cell(factor.name()).flatMap(c -> level(c, factor)).ifPresent(level -> levels.put(factor.name(), level));
        }
        return levels.size() == trial.factors().size() ? made(new Treatment(levels), row.line()) : Optional.empty();
    }

    private static Optional<String> level(Cell cell, Factor factor) {
        if (cell.empty()) {
            return cell.refuse(Wording.oneOf(factor.levels()));
        }
        return factor.levels().contains(cell.text())
                ? Optional.of(cell.text())
                : cell.unknown("level of " + factor.name(), factor.levels());
    }

    private Optional<Treatment> made(Treatment treatment, int line) {
        var banned = trial.never().stream().filter(treatment::includes).findFirst();
        banned.ifPresent(never -> problems.add(
                line, "the combination " + Wording.visible(never.describe()), "none that the plan says is never made"));
        return banned.isPresent() ? Optional.empty() : Optional.of(treatment);
    }

    /** A factor applied to stacks has one level in each stack. */
    private void checkUnits(Stand stand, Treatment treatment, int line) {
        for (Factor factor : shared) {
            var to = factor.appliedTo();
            var level = treatment.level(factor.name());
            var unit = trial.place().unit(to, stand);
            var before = given.putIfAbsent(factor.name() + "\n" + unit, new Given(level, line));
            if (before != null && !before.level().equals(level)) {
                problems.add(
                        line,
                        "%s %s, but %s in line %d: %s differs within %s %s"
                                .formatted(
                                        factor.name(), level, before.level(), before.line(), factor.name(), to, unit),
                        "one level within a " + to + ", because " + factor.name() + " is applied to " + to);
            }
        }
    }
}
