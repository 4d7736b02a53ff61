package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.trial.Place;
import org.fairtray.trial.Stand;

/**
 * The units of a place level as a restriction sees them: each is told by its first stand, with the stands numbered in
 * walking order. Units lie side by side along the level's own numbers and, where the level is crossed with another, along
 * that one's too; the first and last of a line are its edges.
 */
final class RestrictedUnits {
    private final Place place;
    private final List<Integer> key;
    private final List<Integer> directions;
    private final List<List<Integer>> stands;

    RestrictedUnits(Place place, String level) {
        this.place = place;
        this.key = place.key(level);
        this.stands = place.stands().stream().map(Stand::at).toList();
        this.directions = new ArrayList<>(List.of(own()));
        place.levels()
                .get(own())
                .across()
                .map(place.names()::indexOf)
                .filter(key::contains)
                .ifPresent(directions::add);
    }

    private int own() {
        return key.get(key.size() - 1);
    }

    private boolean isFirst(int stand) {
        return IntStream.range(0, place.levels().size())
                .allMatch(c -> key.contains(c) || stands.get(stand).get(c) == 1);
    }

    private int count(int coordinate) {
        return place.levels().get(coordinate).count();
    }

    private int stride(int coordinate) {
        return IntStream.range(coordinate + 1, place.levels().size())
                .map(this::count)
                .reduce(1, Math::multiplyExact);
    }

    /** The units beside each one; none for other stands. */
    int[][] beside() {
        return IntStream.range(0, stands.size())
                .mapToObj(s -> isFirst(s) ? beside(s) : new int[0])
                .toArray(int[][]::new);
    }

    private int[] beside(int stand) {
        return directions.stream()
                .flatMapToInt(
                        c -> IntStream.of(-1, 1).filter(by -> has(stand, c, by)).map(by -> stand + by * stride(c)))
                .toArray();
    }

    private boolean has(int stand, int coordinate, int by) {
        int to = stands.get(stand).get(coordinate) + by;
        return to >= 1 && to <= count(coordinate);
    }

    /** 0 at each unit, {@link Restraint#NOTHING} at other stands. */
    int[] all() {
        return IntStream.range(0, stands.size())
                .map(s -> isFirst(s) ? 0 : Restraint.NOTHING)
                .toArray();
    }

    /** The number of a place level at each stand, from 0. */
    int[] numbers(String level) {
        int coordinate = place.names().indexOf(level);
        return stands.stream().mapToInt(s -> s.get(coordinate) - 1).toArray();
    }

    /** 0 at each unit at an edge, {@link Restraint#NOTHING} at other stands. */
    int[] edges() {
        return IntStream.range(0, stands.size())
                .map(s -> isFirst(s) && directions.stream().anyMatch(c -> !has(s, c, -1) || !has(s, c, 1))
                        ? 0
                        : Restraint.NOTHING)
                .toArray();
    }

    /** The most of some units that can lie apart along the level's own numbers: every second one of each run. */
    int mostApart(int[] units) {
        var run = new HashMap<Integer, Integer>();
        int most = 0;
        for (int unit : IntStream.of(units).sorted().toArray()) {
            int before = has(unit, own(), -1) ? run.getOrDefault(unit - stride(own()), 0) : 0;
            run.put(unit, before + 1);
            most += (before + 1) % 2;
        }
        return most;
    }
}
