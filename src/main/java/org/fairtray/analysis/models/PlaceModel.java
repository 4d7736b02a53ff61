package org.fairtray.analysis.models;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.linear.FTest;
import org.fairtray.statistics.linear.KenwardRoger;
import org.fairtray.statistics.linear.VarianceComponentsFit;
import org.fairtray.trial.Place;

/**
 * A linear model of all terms in which every stratum but the tray's enters at random, for layouts that are not
 * orthogonal: what is known of a term within the units of a place level is put together with what is known between them.
 *
 * @param model the columns, without blocks
 * @param fit variances by restricted maximum likelihood
 * @param tests by Kenward and Roger
 */
record PlaceModel(Structure structure, Model model, VarianceComponentsFit fit, KenwardRoger tests) {

    /**
     * Fits one value for each tray.
     *
     * @return empty where the layout is orthogonal, has no level that can be random, or nothing is left for error
     */
    static Optional<PlaceModel> of(Cells cells, double[] values) {
        var ones = new double[values.length];
        Arrays.fill(ones, 1);
        return of(cells, values, ones);
    }

    /**
     * Fits one value for each tray.
     *
     * @param weights the residual variance of a tray is the common one over its weight
     * @return as {@link #of(Cells, double[])}
     */
    static Optional<PlaceModel> of(Cells cells, double[] values, double[] weights) {
        var structure = cells.structure();
        if (!structure.isSpread()) {
            return Optional.empty();
        }
        var model = Model.withoutBlocks(cells, structure.terms());
        var groupings = IntStream.range(0, structure.strata().size() - 1)
                .mapToObj(structure.strata()::grouping)
                .toList();
        var fit = VarianceComponentsFit.of(model.matrix(), values, groupings, weights);
        return fit.kenwardRoger().map(tests -> new PlaceModel(structure, model, fit, tests));
    }

    /**
     * The same with tests as verdicts need them: a level whose variance came out as 0 is left out. As no variance is
     * estimated below 0, it is too large on average where there is none; to count it as unsure, too, makes tests far too
     * cautious (docs/calibration.md).
     */
    PlaceModel forVerdicts() {
        return new PlaceModel(
                structure, model, fit, fit.kenwardRogerWithoutZeros().orElse(tests));
    }

    /** The variance between the units of each stratum, and that between trays. */
    Map<String, Double> variances() {
        double[] found = fit.variances();
        var variances = new LinkedHashMap<String, Double>();
        for (int s = 0; s < found.length - 1; s++) {
            variances.put(structure.strataNames().get(s), found[s]);
        }
        variances.put(Place.TRAY, residualVariance());
        return variances;
    }

    /** The variance between trays of one unit, for a weight of 1. */
    double residualVariance() {
        double[] found = fit.variances();
        return found[found.length - 1];
    }

    /** Whether a stratum's variance came out as 0. */
    List<String> atZero() {
        return fit.atZero().stream().map(structure.strataNames()::get).toList();
    }

    /** The test of a term; empty where none of it can be estimated. */
    Optional<FTest> test(Term term) {
        var own = model.columns(term::equals);
        return own.isEmpty()
                ? Optional.empty()
                : tests.marginalTest(own, model.columns(t -> !t.equals(term) && t.contains(term)));
    }
}
