package org.fairtray.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;

/**
 * The exchanges of places that keep the structure of the place: stacks of a shelf change places as wholes, trays within
 * their stack, rows and columns that cross as whole rows and columns. A layout that was drawn at random stays as likely as
 * it was under each of them, whatever it is: full sets, incomplete blocks, squares or split plots.
 *
 * <p>Where the layout keeps restrictions of the plan, exchanges are made one after another by a {@link Walk} among those
 * layouts that keep them too.
 *
 * <p>Where places stay empty only the trays of each innermost unit change places; where they stay empty in rows that cross
 * columns, nothing can.
 *
 * <p>Source: Bailey (2008), Design of Comparative Experiments, sections 8.3, 9.1 and 10.14.
 */
public final class PlaceSymmetries {
    /** By level: which unit holds each tray, from 0. */
    private final List<int[]> holder = new ArrayList<>();
    /** By level: the numbers in use in each unit that holds some. */
    private final List<int[][]> numbers = new ArrayList<>();
    /** By level: where among the numbers of its holder each tray's own stands. */
    private final List<int[]> own = new ArrayList<>();
    /** By level: what one more of its number adds to the number of a stand. */
    private final int[] stride;
    /** The tray at each stand. */
    private final int[] trayAt;

    private final List<Boolean> moves = new ArrayList<>();
    private final int trays;
    private final Structure structure;

    private PlaceSymmetries(Structure structure) {
        var place = structure.trial().place();
        var trays = structure.trays();
        this.structure = structure;
        int levels = place.levels().size();
        this.trays = trays.size();
        this.stride = new int[levels];
        int stands = 1;
        for (int level = levels - 1; level >= 0; level--) {
            stride[level] = stands;
            stands *= place.levels().get(level).count();
        }
        this.trayAt = new int[stands];
        for (int t = 0; t < trays.size(); t++) {
            int stand = 0;
            for (int level = 0; level < levels; level++) {
                stand += (trays.get(t).stand().at().get(level) - 1) * stride[level];
            }
            trayAt[stand] = t;
        }
        long used = 1;
        for (int level = 0; level < levels; level++) {
            int l = level;
            used *= trays.stream().map(t -> t.stand().at().get(l)).distinct().count();
            look(place, trays, level);
        }
        boolean whole = used == trays.size();
        boolean crossed = place.levels().stream().anyMatch(l -> l.across().isPresent());
        for (int level = 0; level < levels; level++) {
            moves.add(whole || (level == levels - 1 && !crossed));
        }
    }

    private void look(Place place, List<Tray> trays, int level) {
        var key = new ArrayList<>(place.key(place.levels().get(level).name()));
        key.remove(Integer.valueOf(level));
        var holders = Grouping.by(
                trays.stream().map(t -> Units.of(key, t.stand().at())).toList());
        int[] of = holders.of();
        var inUse = new ArrayList<List<Integer>>();
        IntStream.range(0, holders.groups()).forEach(h -> inUse.add(new ArrayList<>()));
        var at = new int[of.length];
        for (int t = 0; t < of.length; t++) {
            var here = inUse.get(of[t]);
            int number = trays.get(t).stand().at().get(level) - 1;
            if (!here.contains(number)) {
                here.add(number);
            }
            at[t] = here.indexOf(number);
        }
        holder.add(of);
        own.add(at);
        numbers.add(inUse.stream()
                .map(n -> n.stream().mapToInt(Integer::intValue).toArray())
                .toArray(int[][]::new));
    }

    /** The symmetries of the place in which some trays stand. */
    public static PlaceSymmetries of(Structure structure) {
        return new PlaceSymmetries(structure);
    }

    /**
     * Draws some, each equally likely.
     *
     * @param visitor gets for each tray the number of the tray whose treatment it takes over, in a new array
     */
    public void draw(int draws, UniformRandomProvider random, Consumer<int[]> visitor) {
        var trial = structure.trial();
        var kept = Restrictions.kept(trial, structure.trays());
        if (kept.isEmpty()) {
            for (int draw = 0; draw < draws; draw++) {
                visitor.accept(drawn(random));
            }
        } else {
            walk(new Bench(trial, structure.trays(), kept), draws, random, visitor);
        }
    }

    private void walk(Bench bench, int draws, UniformRandomProvider random, Consumer<int[]> visitor) {
        var walk = new Walk(bench, Layer.ofPlace(structure.trial(), bench, moves), random);
        boolean settled = walk.settle(share -> {}) == 0;
        for (int draw = 0; draw < draws; draw++) {
            if (settled) {
                walk.onward(walk.size());
            }
            visitor.accept(origins(bench));
        }
    }

    /** For each tray the number of that whose treatment it has on a bench. */
    private int[] origins(Bench bench) {
        return structure.trays().stream()
                .mapToInt(t -> trayAt[bench.origin(bench.number(t.stand().at()))])
                .toArray();
    }

    private int[] drawn(UniformRandomProvider random) {
        var stand = new int[trays];
        for (int level = 0; level < stride.length; level++) {
            int[][] to = Arrays.stream(numbers.get(level)).map(int[]::clone).toArray(int[][]::new);
            if (moves.get(level)) {
                Arrays.stream(to).forEach(n -> Generator.shuffle(n, random));
            }
            int[] in = holder.get(level);
            int[] at = own.get(level);
            for (int t = 0; t < trays; t++) {
                stand[t] += to[in[t]][at[t]] * stride[level];
            }
        }
        var source = new int[trays];
        for (int t = 0; t < trays; t++) {
            source[trayAt[stand[t]]] = t;
        }
        return source;
    }
}
