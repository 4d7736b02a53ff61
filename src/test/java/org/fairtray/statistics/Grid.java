package org.fairtray.statistics;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;

/**
 * Things told apart by coordinates, as trays are by shelf, stack and position.
 *
 * @param points the coordinates of each thing
 */
public record Grid(List<List<Integer>> points) {

    /** Every combination of coordinates, the last counting fastest. */
    public static Grid of(int... sizes) {
        List<List<Integer>> points = List.of(List.of());
        for (int size : sizes) {
            points = points.stream()
                    .flatMap(p -> IntStream.range(0, size).mapToObj(i -> {
                        var longer = new ArrayList<>(p);
                        longer.add(i);
                        return List.copyOf(longer);
                    }))
                    .toList();
        }
        return new Grid(points);
    }

    /** Some things taken away by chance. */
    public Grid without(int missing, long seed) {
        var shuffled = new ArrayList<>(points);
        Collections.shuffle(shuffled, new Random(seed));
        var gone = shuffled.subList(0, missing);
        return new Grid(points.stream().filter(p -> !gone.contains(p)).toList());
    }

    public int size() {
        return points.size();
    }

    /** The grouping by some of the coordinates. */
    public Grouping by(Integer... coordinates) {
        return Grouping.by(points.stream()
                .map(p -> List.of(coordinates).stream().map(p::get).toList())
                .toList());
    }
}
