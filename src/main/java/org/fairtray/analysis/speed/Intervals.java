package org.fairtray.analysis.speed;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.fairtray.analysis.models.Model;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.time.DayCounts;

/**
 * The rows of a hazard model: what newly came out between two readings, of what was still to come. Each such interval has
 * an intercept of its own: an ordinary one, from one day of reading to the next, that of its day; a longer one, where a
 * tray was passed over, one for itself, since the hazards of its days add up to it whatever they are. Trays of the same
 * treatment in the same block are added up, which changes neither estimates nor likelihood ratios.
 */
final class Intervals {
    private final List<Count> trayCounts = new ArrayList<>();
    private final List<Row> rows = new ArrayList<>();
    private final List<Count> counts = new ArrayList<>();
    private final List<Span> leftOut = new ArrayList<>();
    private final List<Double> days;
    private final int[] trayOfCell;

    /** From a reading to a later one. */
    record Span(double after, double until) {}

    /** A cell of alike trays in an interval. */
    private record Row(int cell, Span span) {}

    private Intervals(Courses courses) {
        var structure = courses.structure();
        var cells = Grouping.by(structure.trays().stream()
                .map(t -> List.of(
                        t.treatment(),
                        structure.fixedBlocks().stream()
                                .map(l -> structure.trial().place().unit(l, t.stand()))
                                .toList()))
                .toList());
        this.trayOfCell = new int[cells.groups()];
        this.days = courses.counts().stream()
                .flatMap(c -> c.days().stream())
                .distinct()
                .sorted()
                .toList();
        int[] cellOf = cells.of();
        Map<Span, List<Integer>> traysOf =
                new TreeMap<>(Comparator.comparingDouble(Span::until).thenComparingDouble(Span::after));
        for (int tray = 0; tray < cellOf.length; tray++) {
            trayOfCell[cellOf[tray]] = tray;
            for (var span : spans(courses.counts().get(tray))) {
                traysOf.computeIfAbsent(span, s -> new ArrayList<>()).add(tray);
            }
        }
        traysOf.forEach((span, trays) -> take(span, trays, cellOf, courses.counts()));
    }

    /** The rows that tell something. */
    static Intervals of(Courses courses) {
        return new Intervals(courses);
    }

    private static List<Span> spans(DayCounts tray) {
        return IntStream.range(0, tray.size())
                .mapToObj(i -> new Span(tray.before(i), tray.days().get(i)))
                .toList();
    }

    /** An interval in which nothing came out, or all that was left, has an infinite intercept and tells nothing. */
    private void take(Span span, List<Integer> trays, int[] cellOf, List<DayCounts> all) {
        var byCell = new TreeMap<Integer, Count>();
        var single = new ArrayList<Count>();
        for (int tray : trays) {
            var count = count(all.get(tray), span.until());
            if (count.trials() > 0) {
                single.add(count);
                byCell.merge(cellOf[tray], count, Count::plus);
            }
        }
        var whole = single.stream().reduce(new Count(0, 0), Count::plus);
        if (whole.successes() == 0 || whole.successes() == whole.trials()) {
            leftOut.add(span);
            return;
        }
        trayCounts.addAll(single);
        byCell.forEach((cell, count) -> {
            rows.add(new Row(cell, span));
            counts.add(count);
        });
    }

    private static Count count(DayCounts tray, double until) {
        int i = tray.days().indexOf(until);
        long found = tray.events().get(i);
        return new Count(found, tray.seeds() - tray.cumulative(i) + found);
    }

    boolean isEmpty() {
        return rows.isEmpty();
    }

    /** New ones of those at risk, row by row. */
    List<Count> counts() {
        return counts;
    }

    /** The same, tray by tray: not in the order of rows. */
    List<Count> trayCounts() {
        return trayCounts;
    }

    /** A tray of a row's cell. */
    int tray(int row) {
        return trayOfCell[rows.get(row).cell()];
    }

    /** The days on which nothing could be told, though trays were read on them as usual. */
    List<Integer> daysLeftOut() {
        return leftOut.stream()
                .filter(this::isOrdinary)
                .map(s -> (int) s.until())
                .toList();
    }

    private boolean isOrdinary(Span span) {
        int i = days.indexOf(span.until());
        return span.after() == (i == 0 ? 0 : days.get(i - 1));
    }

    /** Such as day=3, or day=2-3 where a longer interval begins after day 1. */
    private String name(Span span) {
        return isOrdinary(span)
                ? "day=" + (int) span.until()
                : "day=" + (int) (span.after() + 1) + "-" + (int) span.until();
    }

    /** An intercept for each interval, then the columns of a model of the trays but its common intercept. */
    ModelMatrix matrix(Model ofTrays) {
        var columns = new ArrayList<ModelMatrix.Column>();
        for (var span : rows.stream().map(Row::span).distinct().toList()) {
            columns.add(column(name(span), r -> rows.get(r).span().equals(span) ? 1 : 0));
        }
        var matrix = ofTrays.matrix();
        for (int j = 1; j < matrix.width(); j++) {
            int own = j;
            columns.add(column(matrix.names().get(j), r -> matrix.row(tray(r))[own]));
        }
        return ModelMatrix.of(columns);
    }

    private ModelMatrix.Column column(String name, IntToDoubleFunction value) {
        return new ModelMatrix.Column(
                name, IntStream.range(0, rows.size()).mapToDouble(value).toArray());
    }
}
