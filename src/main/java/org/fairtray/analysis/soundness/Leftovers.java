package org.fairtray.analysis.soundness;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.analysis.models.Cells;
import org.fairtray.analysis.models.Model;
import org.fairtray.design.Structure;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.residuals.StratumResiduals;

/** What all terms of the analysis leave over, stratum by stratum. */
final class Leftovers {
    /** Rates nearer to 0 or 1 than any real one give a tray no weight at all. */
    private static final double NEAREST = 1e-9;

    private final Structure structure;
    private final List<double[]> columns;
    private final double[] values;
    private final double[] weights;
    private final double leastDispersion;
    private final StratumResiduals ofTrays;

    private Leftovers(Structure structure, double[] values, double[] weights, double leastDispersion) {
        this.structure = structure;
        this.columns = columns(structure);
        this.values = values;
        this.weights = weights;
        this.leastDispersion = leastDispersion;
        this.ofTrays = between(structure.strata().size() - 1);
    }

    private static List<double[]> columns(Structure structure) {
        var matrix = Model.withoutBlocks(Cells.of(structure), structure.terms()).matrix();
        var columns = new double[matrix.width()][matrix.height()];
        for (int i = 0; i < matrix.height(); i++) {
            for (int j = 0; j < columns.length; j++) {
                columns[j][i] = matrix.row(i)[j];
            }
        }
        return Arrays.asList(columns);
    }

    static Leftovers ofMeasures(Structure structure, double[] values) {
        var ones = new double[values.length];
        Arrays.fill(ones, 1);
        return new Leftovers(structure, values, ones, 0);
    }

    /** By working values and weights at the fitted rates. */
    static Leftovers ofCounts(Structure structure, List<Count> counts, double[] rates) {
        var values = new double[rates.length];
        var weights = new double[rates.length];
        for (int i = 0; i < rates.length; i++) {
            double p = Math.min(1 - NEAREST, Math.max(NEAREST, rates[i]));
            double trials = counts.get(i).trials();
            weights[i] = trials * p * (1 - p);
            values[i] = Math.log(p / (1 - p)) + (counts.get(i).successes() - trials * p) / weights[i];
        }
        return new Leftovers(structure, values, weights, 1);
    }

    Structure structure() {
        return structure;
    }

    /** Between the trays of the innermost units. */
    StratumResiduals ofTrays() {
        return ofTrays;
    }

    /** Between the units of a stratum. */
    StratumResiduals between(int stratum) {
        var strata = structure.strata();
        return StratumResiduals.of(
                columns,
                values,
                weights,
                strata.grouping(stratum),
                strata.coarser(stratum).stream().map(strata::grouping).toList(),
                leastDispersion);
    }

    /** The codes of some trays. */
    List<String> codes(IntStream trays) {
        return trays.mapToObj(i -> structure.trays().get(i).code()).toList();
    }
}
