package org.fairtray.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Move;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Which tray moves where on which day. The trays that differ in nothing but the rotated level change places among
 * themselves, by a Latin square of trays and days in which each place comes after each other place equally often: one
 * square for an even number of places, two for an odd one, which are given to one group of trays and the next. Which place
 * is which in the square is drawn at random for each group, or for both. Where days are more than places the square begins again; where
 * they are fewer it stops short.
 *
 * <p>Source: Williams (1949), Experimental designs balanced for the estimation of residual effects of treatments,
 * Australian Journal of Scientific Research A 2, 149-168.
 */
public final class RotationSchedule {
    private final Rotation rotation;
    private final int own;
    private final int places;
    private final List<Move> moves;

    private RotationSchedule(Trial trial, Rotation rotation, Layout layout, long seed) {
        this.rotation = rotation;
        this.own = trial.place().names().indexOf(rotation.level());
        this.places = trial.place().levels().get(own).count();
        this.moves = moves(layout, seed);
    }

    /**
     * The moves of all trays, by day and then in the layout's order; none where the plan has no rotation.
     *
     * @param seed that of the layout; moves have a stream of their own, so they change no layout
     */
    public static List<Move> of(Trial trial, Layout layout, long seed) {
        return trial.rotation()
                .map(r -> new RotationSchedule(trial, r, layout, seed).moves)
                .orElse(List.of());
    }

    private List<Move> moves(Layout layout, long seed) {
        var random = Generator.of(seed, Generator.MOVES);
        Map<List<Integer>, List<Tray>> groups = new LinkedHashMap<>();
        layout.trays()
                .forEach(t ->
                        groups.computeIfAbsent(rest(t), g -> new ArrayList<>()).add(t));
        var order = new ArrayList<>(groups.values());
        Generator.shuffle(order, random);
        var names = new ArrayList<>(IntStream.rangeClosed(1, places).boxed().toList());
        boolean mirrored = false;
        Map<String, int[]> visits = new HashMap<>();
        for (var group : order) {
            if (!mirrored) {
                Generator.shuffle(names, random);
            }
            int[] square = firstRow(places, mirrored);
            for (Tray tray : group) {
                int shift = names.indexOf(tray.stand().at().get(own)) - square[0] + places;
                visits.put(
                        tray.code(),
                        IntStream.rangeClosed(0, rotation.days().size())
                                .map(d -> names.get((square[d % places] + shift) % places))
                                .toArray());
            }
            mirrored = places % 2 == 1 && !mirrored;
        }
        var found = new ArrayList<Move>();
        for (int d = 1; d <= rotation.days().size(); d++) {
            for (Tray tray : layout.trays()) {
                found.add(new Move(rotation.days().get(d - 1), tray.code(), at(tray, visits.get(tray.code())[d])));
            }
        }
        return List.copyOf(found);
    }

    /** 0, 1, n-1, 2, n-2 and so on: each step but 0 between neighbours comes once (n even), or with the mirror twice. */
    static int[] firstRow(int places, boolean mirrored) {
        int[] row = IntStream.range(0, places)
                .map(i -> i % 2 == 1 ? (i + 1) / 2 : (places - i / 2) % places)
                .toArray();
        return mirrored
                ? IntStream.range(0, places).map(i -> row[places - 1 - i]).toArray()
                : row;
    }

    private List<Integer> rest(Tray tray) {
        var rest = new ArrayList<>(tray.stand().at());
        rest.remove(own);
        return rest;
    }

    private Stand at(Tray tray, int number) {
        var at = new ArrayList<>(tray.stand().at());
        at.set(own, number);
        return new Stand(at);
    }

    /** What moves come to, for people: how often each tray stands at each place, and whether places follow evenly. */
    public static String describe(Trial trial, Layout layout, List<Move> moves) {
        var rotation = trial.rotation().orElseThrow();
        int own = trial.place().names().indexOf(rotation.level());
        int places = trial.place().levels().get(own).count();
        Map<String, List<Integer>> visits = new LinkedHashMap<>();
        layout.trays()
                .forEach(t -> visits.computeIfAbsent(t.code(), c -> new ArrayList<>())
                        .add(t.stand().at().get(own)));
        moves.stream()
                .sorted(Comparator.comparingInt(Move::day))
                .forEach(m -> visits.get(m.tray()).add(m.to().at().get(own)));
        int stands = rotation.days().size() + 1;
        int fewest = stands / places;
        int most = (stands + places - 1) / places;
        String times = fewest == most ? most + " of " : fewest + " or " + most + " of ";
        return "Trays change " + rotation.level() + " on day "
                + rotation.days().stream().map(String::valueOf).collect(Collectors.joining(", "))
                + ": each stands at each of the " + places + " places for " + times + stands + " spells"
                + (followEvenly(visits.values(), places)
                        ? ", and each place follows each other place equally often."
                        : ".");
    }

    private static boolean followEvenly(Iterable<List<Integer>> visits, int places) {
        Map<List<Integer>, Integer> pairs = new HashMap<>();
        for (var own : visits) {
            for (int d = 1; d < own.size(); d++) {
                pairs.merge(own.subList(d - 1, d + 1), 1, Integer::sum);
            }
        }
        return pairs.size() == places * (places - 1)
                && pairs.values().stream().distinct().count() == 1;
    }
}
