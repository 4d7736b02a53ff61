package org.fairtray.statistics.logistic;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Models;

/** Invented counts of 36 trays on 6 rows crossed with 6 columns, three treatments; rows, columns and trays differ. */
record InventedTrial(double[][] rows, List<Count> counts, List<int[]> groups) {

    static InventedTrial of(long seed) {
        var random = new Random(seed);
        double[] ofRow = random.doubles(6, -1, 1).toArray();
        double[] ofColumn = random.doubles(6, -1, 1).toArray();
        var rows = new double[36][];
        var counts = new ArrayList<Count>();
        var groups = List.of(new int[36], new int[36], IntStream.range(0, 36).toArray());
        for (int i = 0; i < 36; i++) {
            groups.get(0)[i] = i / 6;
            groups.get(1)[i] = i % 6;
            int treatment = (i / 6 + i) % 3;
            rows[i] = new double[] {1, treatment == 1 ? 1 : 0, treatment == 2 ? 1 : 0};
            int trials = 20 + random.nextInt(60);
            double odds = 0.3 * treatment + ofRow[i / 6] + ofColumn[i % 6] + 0.5 * random.nextGaussian();
            counts.add(new Count(Math.round(trials * LogisticFit.rate(odds)), trials));
        }
        return new InventedTrial(rows, counts, groups);
    }

    ModelMatrix model() {
        return Models.of(rows);
    }

    List<Grouping> groupings() {
        return groups.stream()
                .map(g -> Grouping.by(IntStream.of(g).boxed().toList()))
                .toList();
    }

    /** The same trays in another order. */
    InventedTrial shuffled(Random random) {
        var order = new ArrayList<>(IntStream.range(0, 36).boxed().toList());
        Collections.shuffle(order, random);
        return new InventedTrial(
                order.stream().map(i -> rows[i]).toArray(double[][]::new),
                order.stream().map(counts::get).toList(),
                groups.stream()
                        .map(g -> order.stream().mapToInt(i -> g[i]).toArray())
                        .toList());
    }
}
