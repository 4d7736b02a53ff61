package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.trial.Area;
import org.fairtray.trial.Counting;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** frames.csv: where each counting frame lies in its tray. */
final class FramesFile {
    static final String NAME = "frames.csv";
    static final List<String> COLUMNS = List.of("tray", "frame", "left_cm", "front_cm");

    private final Counting counting;
    private final Optional<List<String>> codes;
    private final Problems problems;
    /** What lies in each tray so far, and the lines that say so. */
    private final Map<String, Map<FrameSpot, Integer>> lying = new LinkedHashMap<>();

    private FramesFile(Counting counting, Optional<List<String>> codes, Problems problems) {
        this.counting = counting;
        this.codes = codes;
        this.problems = problems;
    }

    static String text(List<FrameSpot> frames) {
        var csv = new CsvText();
        csv.add(COLUMNS);
        frames.forEach(f -> csv.add(List.of(
                f.tray(), Integer.toString(f.frame()), Double.toString(f.fromLeft()), Double.toString(f.fromFront()))));
        return csv.text();
    }

    /**
     * Reads where frames lie; what is wrong is noted in {@code problems}.
     *
     * @param layout empty where it is broken or missing
     * @return the frames whose lines are sound, in the file's order
     */
    static List<FrameSpot> read(Trial trial, StoredFile file, Problems problems, Optional<Layout> layout) {
        if (trial.counting().frame().isEmpty()) {
            problems.add(0, "frames, and a plan that gives them no size", "frame_cm in plan.yaml, or no such file");
            return List.of();
        }
        var codes = layout.map(l -> l.trays().stream().map(Tray::code).toList());
        var reader = new FramesFile(trial.counting(), codes, problems);
        var sheet = Sheet.read(file, problems);
        sheet.only(COLUMNS);
        var frames = sheet.rows().stream()
                .map(reader::frame)
                .flatMap(Optional::stream)
                .toList();
        if (problems.none()) {
            reader.checkAll();
        }
        return frames;
    }

    private Optional<FrameSpot> frame(Sheet.Row row) {
        var tray = row.cell("tray").flatMap(c -> c.tray(codes));
        var frame = row.cell("frame").flatMap(c -> c.number(1, counting.framesPerTray()));
        var across = counting.tray().map(Area::across).orElseThrow();
        var deep = counting.tray().map(Area::deep).orElseThrow();
        var left = row.cell("left_cm").flatMap(c -> from(c, across - size().across()));
        var front = row.cell("front_cm").flatMap(c -> from(c, deep - size().deep()));
        return tray.isPresent() && frame.isPresent() && left.isPresent() && front.isPresent()
                ? free(new FrameSpot(tray.get(), frame.get(), left.get(), front.get()), row.line())
                : Optional.empty();
    }

    private Area size() {
        return counting.frame().orElseThrow();
    }

    /** @param most where a frame that touches the other edge begins */
    private Optional<Double> from(Cell cell, double most) {
        double margin = counting.margin();
        return cell.measure()
                .flatMap(cm -> cm >= margin && cm <= most - margin
                        ? Optional.of(cm)
                        : cell.refuse("cm from " + Area.cm(margin) + " to " + Area.cm(most - margin)
                                + ", so that the frame lies in the tray, clear of the margin"));
    }

    private Optional<FrameSpot> free(FrameSpot spot, int line) {
        var others = lying.computeIfAbsent(spot.tray(), t -> new LinkedHashMap<>());
        for (var other : others.entrySet()) {
            if (other.getKey().frame() == spot.frame()) {
                problems.add(
                        line,
                        "frame " + spot.frame() + " of tray " + Wording.quote(spot.tray()) + ", which is in line "
                                + other.getValue() + " already",
                        "each frame of a tray once");
                return Optional.empty();
            }
            if (overlap(spot, other.getKey())) {
                problems.add(line, "a frame that lies over that of line " + other.getValue(), "frames side by side");
                return Optional.empty();
            }
        }
        others.put(spot, line);
        return Optional.of(spot);
    }

    private boolean overlap(FrameSpot one, FrameSpot other) {
        return Math.abs(one.fromLeft() - other.fromLeft()) < size().across()
                && Math.abs(one.fromFront() - other.fromFront()) < size().deep();
    }

    private void checkAll() {
        var lacking = new ArrayList<String>();
        codes.orElse(List.of()).stream()
                .filter(t -> lying.getOrDefault(t, Map.of()).size() < counting.framesPerTray())
                .forEach(lacking::add);
        if (!lacking.isEmpty()) {
            problems.add(
                    0,
                    "fewer frames than " + counting.framesPerTray() + " for tray " + Wording.list(lacking),
                    "a line for each frame of each tray");
        }
    }
}
