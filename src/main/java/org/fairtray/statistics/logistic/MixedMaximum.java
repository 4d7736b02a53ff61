package org.fairtray.statistics.logistic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.function.Predicate;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.ModelMatrix;

/**
 * The greatest value of a mixed logistic likelihood. It may have more than one top, so where the model is small climbs
 * go from the two likeliest of several starts, else from the likeliest. A standard deviation that ends next to 0 is set to
 * 0 and the rest climbed anew, unless that loses likelihood.
 */
final class MixedMaximum {
    /** Below this a standard deviation counts as 0: on the log-odds scale it shifts a rate by at most 0.03 points. */
    private static final double NEXT_TO_ZERO = 1e-3;

    /** What setting a standard deviation to 0 may lose in log-likelihood. */
    private static final double NO_LOSS = 1e-6;

    /** Rows times parameters up to which more starts and a second climb are cheap. */
    private static final int SMALL = 2_000;

    /** Parameters that are all nearer to those of a top than this, log-odds, belong to it. */
    private static final double SAME_TOP = 0.02;

    private static final double LEAST_GUESS = 0.1;

    /** How far a standard deviation is moved to see how slopes change. */
    private static final double NUDGE = 0.02;

    private final LaplaceLikelihood likelihood;
    private final int first;

    private MixedMaximum(LaplaceLikelihood likelihood) {
        this.likelihood = likelihood;
        this.first = likelihood.firstDeviation();
    }

    /**
     * The likelihood alone, by the plain fit where that is as good: its standard deviations are then all 0.
     *
     * @param likelihood of the model; takes the counts
     * @param guess at the standard deviations, one for each grouping, or none at all
     */
    static QuasiNewton.Top of(ModelMatrix model, List<Count> counts, LaplaceLikelihood likelihood, double[] guess) {
        var plain = LogisticFit.of(model, counts);
        double[] coefficients = plain.estimates().coefficients();
        var atZero = new QuasiNewton.Top(
                Arrays.copyOf(coefficients, likelihood.size()), plain.logLikelihood(), plain.settled(), plain.steps());
        if (likelihood.size() == model.width()) {
            return atZero;
        }
        likelihood.take(counts);
        var top = of(likelihood, coefficients, guess, counts.size());
        return plain.logLikelihood() >= top.value() ? atZero : top;
    }

    /**
     * Climbs.
     *
     * @param likelihood of some coefficients and one standard deviation or more
     * @param coefficients where to start, as a plain logistic fit gives them
     * @param guess at the standard deviations, one for each grouping, or none at all
     * @param rows how many rows the model has
     * @return standard deviations are 0 or more
     */
    static QuasiNewton.Top of(LaplaceLikelihood likelihood, double[] coefficients, double[] guess, int rows) {
        var search = new MixedMaximum(likelihood);
        boolean small = (long) rows * likelihood.size() <= SMALL;
        var starts = search.starts(coefficients, guess, small);
        var best = search.climb(starts.get(0), search.none());
        for (double[] start : starts.subList(1, small ? 2 : 1)) {
            var first = best;
            var other = search.climb(start, search.none(), at -> first.settled() && search.isNextTo(first.at(), at));
            best = other.value() > best.value() + NO_LOSS || !best.settled() ? other : best;
        }
        return search.upright(search.withoutThoseNextToZero(best));
    }

    private boolean[] none() {
        return new boolean[likelihood.size()];
    }

    /** Starts with all standard deviations alike, in small models with one larger than the others too; the likeliest first. */
    private List<double[]> starts(double[] coefficients, double[] guess, boolean small) {
        var starts = new ArrayList<double[]>();
        int groupings = likelihood.size() - first;
        if (guess.length > 0) {
            starts.add(guessed(coefficients, guess));
        }
        for (double all : new double[] {0.3, 1}) {
            starts.add(start(coefficients, all));
        }
        for (int g = 0; small && g < groupings && groupings > 1; g++) {
            double[] one = start(coefficients, 0.15);
            one[first + g] = 0.7;
            starts.add(one);
        }
        var gradient = new double[likelihood.size()];
        var values = new IdentityHashMap<double[], Double>();
        starts.forEach(start -> values.put(start, likelihood.value(start, gradient)));
        starts.sort(Comparator.comparing(start -> -values.get(start)));
        return starts;
    }

    /** At 0 no slope leads away, so a start lies a little above. */
    private double[] guessed(double[] coefficients, double[] guess) {
        double[] start = Arrays.copyOf(coefficients, likelihood.size());
        for (int g = 0; g < guess.length; g++) {
            start[first + g] = Math.max(LEAST_GUESS, guess[g]);
        }
        return start;
    }

    private double[] start(double[] coefficients, double all) {
        double[] start = Arrays.copyOf(coefficients, likelihood.size());
        Arrays.fill(start, first, start.length, all);
        return start;
    }

    private QuasiNewton.Top climb(double[] start, boolean[] held) {
        return climb(start, held, at -> false);
    }

    private QuasiNewton.Top climb(double[] start, boolean[] held, Predicate<double[]> mayEnd) {
        return QuasiNewton.climb(likelihood, start, inverse(start, held), mayEnd);
    }

    /** Whether a climb is so near to a top that it would end there; standard deviations may have either sign. */
    private boolean isNextTo(double[] top, double[] at) {
        for (int k = 0; k < at.length; k++) {
            double apart = k < first ? Math.abs(at[k] - top[k]) : Math.abs(Math.abs(at[k]) - Math.abs(top[k]));
            if (!(apart <= SAME_TOP)) {
                return false;
            }
        }
        return true;
    }

    private QuasiNewton.Top withoutThoseNextToZero(QuasiNewton.Top top) {
        var best = top;
        var held = none();
        for (int k = smallest(best.at(), held); k >= 0; k = smallest(best.at(), held)) {
            held[k] = true;
            double[] start = best.at().clone();
            start[k] = 0;
            var without = climb(start, held);
            if (without.value() >= best.value() - NO_LOSS) {
                best = new QuasiNewton.Top(
                        without.at(), without.value(), without.settled(), best.steps() + without.steps());
            }
        }
        return best;
    }

    /** The free standard deviation that is smallest, where it is next to 0; else -1. */
    private int smallest(double[] at, boolean[] held) {
        int smallest = -1;
        for (int k = first; k < at.length; k++) {
            if (!held[k]
                    && Math.abs(at[k]) < NEXT_TO_ZERO
                    && (smallest < 0 || Math.abs(at[k]) < Math.abs(at[smallest]))) {
                smallest = k;
            }
        }
        return smallest;
    }

    private QuasiNewton.Top upright(QuasiNewton.Top top) {
        double[] at = top.at().clone();
        for (int k = first; k < at.length; k++) {
            at[k] = Math.abs(at[k]);
        }
        return new QuasiNewton.Top(at, top.value(), top.settled(), top.steps());
    }

    /**
     * A guess at the inverse of the negative second derivatives: for the coefficients as if weights stayed, for the
     * standard deviations by how slopes change. Where the whole isn't positive definite the standard deviations go by
     * themselves.
     */
    private double[][] inverse(double[] at, boolean[] held) {
        int size = at.length;
        var slopes = new double[size];
        likelihood.value(at, slopes);
        double[][] coefficients = likelihood.informationAboutCoefficients();
        var second = new double[size][size];
        for (int a = 0; a < first; a++) {
            System.arraycopy(coefficients[a], 0, second[a], 0, first);
        }
        for (int k = first; k < size; k++) {
            if (held[k]) {
                second[k][k] = 1;
            } else {
                nudged(at, slopes, held, k, second[k]);
            }
        }
        double[][] inverse = Cholesky.of(second).orElseGet(() -> apart(second)).inverse();
        for (int k = first; k < size; k++) {
            for (int a = 0; a < size && held[k]; a++) {
                inverse[k][a] = 0;
                inverse[a][k] = 0;
            }
        }
        return inverse;
    }

    /** How slopes fall as standard deviation k grows, but for those that are held. */
    private void nudged(double[] at, double[] slopes, boolean[] held, int k, double[] falls) {
        double[] to = at.clone();
        to[k] += NUDGE;
        var there = new double[at.length];
        likelihood.value(to, there);
        for (int a = 0; a < at.length; a++) {
            falls[a] = held[a] ? 0 : (slopes[a] - there[a]) / NUDGE;
        }
    }

    /** The diagonal of the standard deviations alone; of the coefficients too where they can't be told apart. */
    private Cholesky apart(double[][] second) {
        for (int k = first; k < second.length; k++) {
            double own = Math.abs(second[k][k]) > 1 ? Math.abs(second[k][k]) : 1;
            Arrays.fill(second[k], 0);
            second[k][k] = own;
        }
        return Cholesky.of(second).orElseGet(() -> {
            for (int k = 0; k < first; k++) {
                double own = second[k][k] > 1e-8 ? second[k][k] : 1e-8;
                Arrays.fill(second[k], 0);
                second[k][k] = own;
            }
            return Cholesky.of(second).orElseThrow();
        });
    }
}
