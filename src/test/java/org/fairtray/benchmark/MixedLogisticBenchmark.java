package org.fairtray.benchmark;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.logistic.MixedLogisticFit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Fitting the mixed logistic model in a warm virtual machine: Crowder's 21 plates with their interaction, and invented
 * trials of stacks with 4 shelves of 6 trays, 2 soaking times by 3 mats, 100 seeds a tray; stack, shelf and tray random.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MICROSECONDS)
@Warmup(iterations = 3, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class MixedLogisticBenchmark {
    /** 21 for Crowder's plates, else the number of trays of an invented trial, a multiple of 24. */
    @Param({"21", "24", "240", "2400", "24000"})
    public int trays;

    private ModelMatrix model;
    private List<Count> counts;
    private List<Grouping> groupings;

    @Setup
    public void make() {
        if (trays == 21) {
            plates();
        } else {
            invented(trays);
        }
    }

    @Benchmark
    public MixedLogisticFit fit() {
        return MixedLogisticFit.of(model, counts, groupings);
    }

    /** Crowder (1978), Beta-binomial anova for proportions, Applied Statistics 27, 34-37, table 3. */
    private void plates() {
        int[] sizes = {5, 6, 5, 5};
        int[] germinated = {10, 23, 23, 26, 17, 5, 53, 55, 32, 46, 10, 8, 10, 8, 23, 0, 3, 22, 15, 32, 3};
        int[] seeds = {39, 62, 81, 51, 39, 6, 74, 72, 51, 79, 13, 16, 30, 28, 45, 4, 12, 41, 30, 51, 7};
        var rows = new ArrayList<double[]>();
        for (int kind = 0; kind < 4; kind++) {
            double seed = kind < 2 ? 0 : 1;
            double extract = kind % 2;
            for (int plate = 0; plate < sizes[kind]; plate++) {
                rows.add(new double[] {1, seed, extract, seed * extract});
            }
        }
        counts = new ArrayList<>();
        for (int i = 0; i < seeds.length; i++) {
            counts.add(new Count(germinated[i], seeds[i]));
        }
        model = matrix(rows);
        groupings = List.of(single(21));
    }

    private void invented(int size) {
        var random = new Random(11);
        var rows = new ArrayList<double[]>();
        var stack = new ArrayList<Integer>();
        var shelf = new ArrayList<Integer>();
        counts = new ArrayList<>();
        double ofStack = 0;
        double ofShelf = 0;
        for (int i = 0; i < size; i++) {
            ofStack = i % 24 == 0 ? 0.4 * random.nextGaussian() : ofStack;
            ofShelf = i % 6 == 0 ? 0.3 * random.nextGaussian() : ofShelf;
            stack.add(i / 24);
            shelf.add(i / 6);
            int soak = i % 2;
            int mat = i % 3;
            double[] row = {1, soak, mat == 1 ? 1 : 0, mat == 2 ? 1 : 0, mat == 1 ? soak : 0, mat == 2 ? soak : 0};
            rows.add(row);
            double odds = -0.4 + 0.5 * row[1] + 0.3 * row[2] + ofStack + ofShelf + 0.3 * random.nextGaussian();
            int y = 0;
            for (int seed = 0; seed < 100; seed++) {
                y += random.nextDouble() < LogisticFit.rate(odds) ? 1 : 0;
            }
            counts.add(new Count(y, 100));
        }
        model = matrix(rows);
        groupings = size == 24
                ? List.of(Grouping.by(shelf), single(size))
                : List.of(Grouping.by(stack), Grouping.by(shelf), single(size));
    }

    private static Grouping single(int size) {
        return Grouping.by(IntStream.range(0, size).boxed().toList());
    }

    private static ModelMatrix matrix(List<double[]> rows) {
        var columns = new ArrayList<ModelMatrix.Column>();
        for (int j = 0; j < rows.get(0).length; j++) {
            int column = j;
            columns.add(new ModelMatrix.Column(
                    "x" + j, rows.stream().mapToDouble(r -> r[column]).toArray()));
        }
        return ModelMatrix.of(columns);
    }

    /** The data of so many trays. */
    static MixedLogisticBenchmark of(int trays) {
        var benchmark = new MixedLogisticBenchmark();
        benchmark.trays = trays;
        benchmark.make();
        return benchmark;
    }

    ModelMatrix model() {
        return model;
    }

    List<Count> counts() {
        return counts;
    }

    List<Grouping> groupings() {
        return groupings;
    }

    /** The data as a table: y of n, the groupings g1 and so on, the columns x1 and so on. */
    String csv() {
        int columns = model.width();
        var lines = new ArrayList<String>();
        lines.add("y,n," + numbered("g", groupings.size()) + "," + numbered("x", columns));
        for (int i = 0; i < counts.size(); i++) {
            var cells = new ArrayList<String>();
            cells.add(Long.toString(counts.get(i).successes()));
            cells.add(Long.toString(counts.get(i).trials()));
            for (var grouping : groupings) {
                cells.add(Integer.toString(grouping.of()[i]));
            }
            for (double x : model.row(i)) {
                cells.add(Double.toString(x));
            }
            lines.add(String.join(",", cells));
        }
        return String.join("\n", lines) + "\n";
    }

    private static String numbered(String name, int count) {
        return IntStream.rangeClosed(1, count).mapToObj(i -> name + i).collect(Collectors.joining(","));
    }
}
