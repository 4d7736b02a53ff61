package org.fairtray.audit;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * How regularly one factor's levels lie along the place, in several ways; the larger, the more regular. The factor's units
 * are looked at in walking order, in lines: those that lie in the same units of all other coordinates.
 *
 * <p>The ways are ours; the runs test among them is that of Wald and Wolfowitz (1940), On a test whether two samples are
 * from the same population, Annals of Mathematical Statistics 11, 147-162, counted within lines.
 */
final class Regularity {

    /** A way of being regular; of two that are as rare, the earlier says more. */
    enum Way {
        SAME_ORDER,
        DIAGONAL,
        OTHER_DIAGONAL,
        IN_TURN,
        ALTERNATING,
        CLUSTERED,
        ONE_END
    }

    private final Factor factor;
    /** A tray of each unit, line by line. */
    private final List<int[]> lines;

    private final int longest;

    private final String along;
    private final String inside;

    private Regularity(Factor factor, List<int[]> lines, String along, String inside) {
        this.factor = factor;
        this.lines = lines;
        this.longest = lines.stream().mapToInt(l -> l.length).max().orElse(0);
        this.along = along;
        this.inside = inside;
    }

    static Regularity of(Trial trial, List<Tray> trays, Factor factor) {
        var place = trial.place();
        var key = new ArrayList<>(place.key(trial.appliedLevel(factor)));
        key.removeIf(c -> key.size() > 1 && values(trays, c) == 1);
        Map<List<Integer>, Map<Integer, Integer>> byLine = lines(trays, key);
        while (key.size() > 1 && byLine.values().stream().allMatch(l -> l.size() == 1)) {
            key.remove(key.size() - 1);
            byLine = lines(trays, key);
        }
        var lines = byLine.values().stream()
                .map(l -> l.entrySet().stream()
                        .sorted(Map.Entry.comparingByKey())
                        .mapToInt(Map.Entry::getValue)
                        .toArray())
                .toList();
        int own = key.get(key.size() - 1);
        return new Regularity(
                factor, lines, name(place, own), key.size() > 1 ? name(place, key.get(key.size() - 2)) : "");
    }

    private static String name(Place place, int coordinate) {
        return place.levels().get(coordinate).name();
    }

    private static long values(List<Tray> trays, int coordinate) {
        return trays.stream()
                .map(t -> t.stand().at().get(coordinate))
                .distinct()
                .count();
    }

    /** For each line in walking order, a tray by the number along the line. */
    private static Map<List<Integer>, Map<Integer, Integer>> lines(List<Tray> trays, List<Integer> key) {
        Map<List<Integer>, Map<Integer, Integer>> lines = new LinkedHashMap<>();
        var order = IntStream.range(0, trays.size())
                .boxed()
                .sorted(Comparator.comparing(t -> trays.get(t).stand().at(), Stand.WALK))
                .toList();
        for (int tray : order) {
            var at = trays.get(tray).stand().at();
            var unit = key.stream().map(at::get).toList();
            lines.computeIfAbsent(unit.subList(0, unit.size() - 1), l -> new HashMap<>())
                    .putIfAbsent(unit.get(unit.size() - 1), tray);
        }
        return lines;
    }

    /**
     * How regular the levels are in one way; 0 for one that can't be looked for.
     *
     * @param level of each tray, from 0
     */
    double of(Way way, int[] level) {
        int levels = factor.levels().size();
        boolean diagonals = lines.size() > 2 && levels > 2;
        return switch (way) {
            case ALTERNATING -> -like(level);
            case CLUSTERED -> like(level);
            case ONE_END -> oneEnd(level, levels);
            case SAME_ORDER -> lines.size() < 2 ? 0 : together(level, 0, Integer.MAX_VALUE);
            case IN_TURN -> longest <= levels ? 0 : together(level, 0, levels);
            case DIAGONAL -> diagonals ? together(level, 1, levels) : 0;
            case OTHER_DIAGONAL -> diagonals ? together(level, levels - 1, levels) : 0;
        };
    }

    private int like(int[] level) {
        int like = 0;
        for (int[] line : lines) {
            for (int i = 1; i < line.length; i++) {
                like += level[line[i]] == level[line[i - 1]] ? 1 : 0;
            }
        }
        return like;
    }

    /** Σ over levels of (sum of places, from −1 to 1 along each line)² / number. */
    private double oneEnd(int[] level, int levels) {
        var sum = new double[levels];
        var number = new int[levels];
        for (int[] line : lines) {
            for (int i = 0; i < line.length; i++) {
                sum[level[line[i]]] += line.length < 2 ? 0 : 2.0 * i / (line.length - 1) - 1;
                number[level[line[i]]]++;
            }
        }
        return IntStream.range(0, levels)
                .filter(a -> number[a] > 0)
                .mapToDouble(a -> sum[a] * sum[a] / number[a])
                .sum();
    }

    /**
     * How far the levels go together with the place along the line, moved on by some at each line, in a cycle: the share of
     * {@link Overlap}, for the many layouts it is asked of.
     */
    private double together(int[] level, int step, int cycle) {
        int places = Math.min(cycle, longest);
        var cells = new int[factor.levels().size()][places];
        for (int l = 0; l < lines.size(); l++) {
            int place = l * step % places;
            for (int tray : lines.get(l)) {
                cells[level[tray]][place]++;
                place = place + 1 == places ? 0 : place + 1;
            }
        }
        return share(cells, places);
    }

    private static double share(int[][] cells, int places) {
        var ofPlace = new int[places];
        for (int[] row : cells) {
            for (int p = 0; p < places; p++) {
                ofPlace[p] += row[p];
            }
        }
        double sum = 0;
        int sown = 0;
        for (int[] row : cells) {
            int ofLevel = 0;
            for (int cell : row) {
                ofLevel += cell;
            }
            sown += ofLevel > 0 ? 1 : 0;
            for (int p = 0; p < places; p++) {
                sum += row[p] == 0 ? 0 : (double) row[p] * row[p] / ofLevel / ofPlace[p];
            }
        }
        return (sum - 1) / Math.max(1, sown - 1);
    }

    /** Whether the levels could not be more regular in this way. */
    boolean perfect(Way way, int[] level) {
        return switch (way) {
            case ALTERNATING -> like(level) == 0;
            case CLUSTERED -> like(level) == mostLike(level);
            case ONE_END -> false;
            default -> of(way, level) > 1 - 1e-9;
        };
    }

    private long mostLike(int[] level) {
        return lines.stream()
                .mapToLong(l ->
                        l.length - IntStream.of(l).map(t -> level[t]).distinct().count())
                .sum();
    }

    /** What it looks like, in a grower's words. */
    String words(Way way) {
        String name = factor.name();
        String within = inside.isEmpty() ? "" : " of each " + inside;
        return switch (way) {
            case ALTERNATING -> "The levels of " + name + " take turns along " + along + within + ".";
            case CLUSTERED ->
                "Like levels of " + name + " stand side by side along " + along + within
                        + ", so whatever changes from one end to the other can pass for an effect.";
            case ONE_END ->
                "Some levels of " + name + " stand towards one end of " + along + within
                        + ", so a warm or dark end can pass for an effect.";
            case SAME_ORDER ->
                "The levels of " + name + " stand in the same order along " + along + within + ", so what differs from "
                        + along + " to " + along + " can pass for an effect.";
            case IN_TURN ->
                "The levels of " + name + " follow each other always in the same turn along " + along + within + ".";
            case DIAGONAL, OTHER_DIAGONAL ->
                "The levels of " + name + " lie in diagonals, moved on by one from " + inside + " to " + inside + ".";
        };
    }
}
