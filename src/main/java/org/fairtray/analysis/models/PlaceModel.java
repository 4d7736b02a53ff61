package org.fairtray.analysis.models;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.linear.FTest;
import org.fairtray.statistics.linear.KenwardRoger;
import org.fairtray.statistics.linear.VarianceComponentsFit;
import org.fairtray.statistics.linear.VarianceComponentsFit.Bound;
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
     * Fits one value for each tray, no variance below 0.
     *
     * @return empty where the layout is orthogonal, has no level that can be random, or nothing is left for error
     */
    static Optional<PlaceModel> of(Cells cells, double[] values) {
        return of(cells, values, ones(values.length), Bound.ZERO);
    }

    /**
     * Fits one value for each tray as verdicts need it: variances may fall below 0, as they do unseen in the strata of a
     * layout that is orthogonal. A variance kept at 0 would be too large on average, and tests with it too cautious.
     *
     * @param weights the residual variance of a tray is the common one over its weight
     * @return as {@link #of}
     */
    static Optional<PlaceModel> free(Cells cells, double[] values, double[] weights) {
        return of(cells, values, weights, Bound.NONE).or(() -> of(cells, values, weights, Bound.ZERO));
    }

    /** The same values fitted as verdicts need it. */
    PlaceModel freed(Cells cells, double[] values) {
        return fit.atZero().isEmpty()
                ? this
                : free(cells, values, ones(values.length)).orElse(this);
    }

    private static double[] ones(int n) {
        var ones = new double[n];
        Arrays.fill(ones, 1);
        return ones;
    }

    private static Optional<PlaceModel> of(Cells cells, double[] values, double[] weights, Bound bound) {
        var structure = cells.structure();
        if (structure.strata().size() == 1 || structure.decomposition().isOrthogonal()) {
            return Optional.empty();
        }
        var model = Model.withoutBlocks(cells, structure.terms());
        var fit = VarianceComponentsFit.of(model.matrix(), values, groupings(structure), weights, bound);
        return fit.kenwardRoger().map(tests -> new PlaceModel(structure, model, fit, tests));
    }

    private static List<Grouping> groupings(Structure structure) {
        return IntStream.range(0, structure.strata().size() - 1)
                .mapToObj(structure.strata()::grouping)
                .toList();
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
