package org.fairtray.statistics.linear;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;

/**
 * Tests and intervals of Kenward and Roger for the coefficients of a {@link VarianceComponentsFit}. The covariance Phi of
 * the coefficients takes the variances as known; with W the covariance of the variances,
 *
 * <pre>
 *   W     = 2 (tr P V_i P V_j)^-1
 *   Phi_A = Phi + 2 Phi [sum of W_ij (Q_ij - P_i Phi P_j)] Phi
 * </pre>
 *
 * allows for their being estimates, and degrees of freedom follow from how much they vary. A variance that came out as 0 was
 * estimated, too, and is counted so. Balanced data with positive variances give the F and the degrees of freedom of the
 * strata.
 *
 * <p>Source: Kenward and Roger (1997), Biometrics 53, 983-997, sections 2 and 3. Immutable.
 */
public final class KenwardRoger {
    private final double[] coefficients;
    private final Cholesky products;
    private final double[][] varianceCovariance;
    private final double[][][] shares;
    private final double[][] added;

    private KenwardRoger(
            double[] coefficients,
            Cholesky products,
            double[][] varianceCovariance,
            double[][][] shares,
            double[][] added) {
        this.coefficients = coefficients;
        this.products = products;
        this.varianceCovariance = varianceCovariance;
        this.shares = shares;
        this.added = added;
    }

    /**
     * The tests at an end of the search.
     *
     * @param estimable which variances were estimated
     * @return empty where the information on the variances can't be inverted
     */
    static Optional<KenwardRoger> of(RestrictedLikelihood at, double[] coefficients, boolean[] estimable) {
        var information = new Information(at);
        int[] present =
                IntStream.range(0, estimable.length).filter(k -> estimable[k]).toArray();
        double[][] expected = information.expected();
        double[][] halved = Arrays.stream(present)
                .mapToObj(i -> Arrays.stream(present)
                        .mapToDouble(j -> expected[i][j] / 2)
                        .toArray())
                .toArray(double[][]::new);
        return Cholesky.of(halved).map(Cholesky::inverse).map(w -> {
            double[][][] shares =
                    Arrays.stream(present).mapToObj(information::share).toArray(double[][][]::new);
            double[][] added = added(information, present, w, shares);
            return new KenwardRoger(coefficients, at.products(), w, shares, added);
        });
    }

    /** What T' and T leave of the sum of W_ij (Q_ij - P_i Phi P_j), twice. */
    private static double[][] added(Information information, int[] present, double[][] w, double[][][] shares) {
        int p = shares[0].length;
        var sum = new double[p][p];
        for (int i = 0; i < present.length; i++) {
            for (int j = 0; j < present.length; j++) {
                double[][] cross = information.cross(present[i], present[j]);
                for (int a = 0; a < p; a++) {
                    for (int b = 0; b < p; b++) {
                        sum[a][b] += 2 * w[i][j] * (cross[a][b] - Vectors.dot(shares[i][a], shares[j][b]));
                    }
                }
            }
        }
        return sum;
    }

    /** W, the covariance of the variances that were estimated: of the groupings in their order, the residual's last. */
    public double[][] varianceCovariance() {
        return Arrays.stream(varianceCovariance).map(double[]::clone).toArray(double[][]::new);
    }

    /**
     * The adjusted covariance L Phi_A L' of some combinations of the coefficients.
     *
     * @param rows l rows of p weights
     * @return l x l
     */
    public double[][] covariance(double[][] rows) {
        return adjusted(whitened(rows));
    }

    /**
     * Tests L b = 0, all rows at once.
     *
     * @param rows l rows of p weights, none a combination of the others
     * @return empty where the approximation gives no degrees of freedom above 0
     * @throws IllegalArgumentException if there are no rows, their length is not p, or they are not independent
     */
    public Optional<FTest> test(double[][] rows) {
        double[][] white = whitened(rows);
        var products = Cholesky.of(products(white, white))
                .filter(c -> rows.length > 0)
                .orElseThrow(() -> new IllegalArgumentException(
                        "rows " + Arrays.deepToString(rows) + ": expected one or more, independent"));
        double[] estimate = Arrays.stream(rows)
                .mapToDouble(r -> Vectors.dot(r, coefficients))
                .toArray();
        var df = SmallSample.of(moments(white, products), rows.length);
        return Cholesky.of(adjusted(white)).flatMap(covariance -> {
            double wald = Vectors.squaredLength(covariance.forward(estimate)) / rows.length;
            return df.map(d -> {
                double f = d.scale() * wald;
                return new FTest(f, rows.length, d.denominatorDf(), Tail.f(f, rows.length, d.denominatorDf()));
            });
        });
    }

    /** For each variance (LPhiL')^-1 times what LPhiL' changes with it, l x l. */
    private SmallSample.Moments moments(double[][] white, Cholesky products) {
        double[][][] changes = Arrays.stream(shares)
                .map(share -> change(white, share, products))
                .toArray(double[][][]::new);
        double ofTraces = 0;
        double ofProducts = 0;
        for (int i = 0; i < changes.length; i++) {
            for (int j = 0; j < changes.length; j++) {
                double w = varianceCovariance[i][j];
                ofTraces += w * trace(changes[i]) * trace(changes[j]);
                ofProducts += w * traceOfProduct(changes[i], changes[j]);
            }
        }
        return new SmallSample.Moments(ofTraces, ofProducts);
    }

    private static double[][] change(double[][] white, double[][] share, Cholesky products) {
        return Arrays.stream(products(timesMatrix(white, share), white))
                .map(products::solve)
                .toArray(double[][]::new);
    }

    private static double trace(double[][] matrix) {
        return IntStream.range(0, matrix.length).mapToDouble(a -> matrix[a][a]).sum();
    }

    private static double traceOfProduct(double[][] left, double[][] right) {
        double sum = 0;
        for (int a = 0; a < left.length; a++) {
            for (int b = 0; b < left.length; b++) {
                sum += left[a][b] * right[b][a];
            }
        }
        return sum;
    }

    /**
     * One combination of the coefficients; its degrees of freedom are Satterthwaite's.
     *
     * @param row p weights, not all 0
     * @param confidence in (0, 1)
     * @throws IllegalArgumentException if the length is not p or all weights are 0
     */
    public ContrastEstimate estimate(double[] row, double confidence) {
        double[][] white = whitened(new double[][] {row});
        var products = Cholesky.of(products(white, white))
                .orElseThrow(() -> new IllegalArgumentException(
                        "weights " + Arrays.toString(row) + ": expected some that are not 0"));
        double estimate = Vectors.dot(row, coefficients);
        double error = Math.sqrt(adjusted(white)[0][0]);
        double df = 2 / moments(white, products).ofProducts();
        double half = error * Tail.tQuantile((1 + confidence) / 2, df);
        double p = Tail.tTwoSided(estimate / error, df);
        return new ContrastEstimate(estimate, error, df, estimate - half, estimate + half, p);
    }

    /**
     * Tests a term beside all that doesn't contain it, with the variances of the whole model: the combinations of the
     * coefficients of the term and of those containing it that are uncorrelated, by Phi_A, with the latter. Where nothing
     * contains the term they are its own coefficients.
     *
     * <p>Source: Fox and Weisberg (2019), An R Companion to Applied Regression, 3rd ed., section 5.3.4 (tests of type II);
     * the combinations: Nelder (1977), Journal of the Royal Statistical Society A 140, 48-77, on marginality.
     *
     * @param term numbers of the term's columns, one or more
     * @param containing numbers of the columns of all terms containing it
     * @return as {@link #test}
     */
    public Optional<FTest> marginalTest(List<Integer> term, List<Integer> containing) {
        return test(marginalRows(term, containing));
    }

    /** The rows that {@link #marginalTest} tests, one for each column of the term. */
    public double[][] marginalRows(List<Integer> term, List<Integer> containing) {
        double[][] own = units(term);
        if (containing.isEmpty()) {
            return own;
        }
        double[][] others = units(containing);
        double[][] covariance = covariance(units(java.util.stream.Stream.concat(term.stream(), containing.stream())
                .toList()));
        int first = term.size();
        var among = Cholesky.of(Arrays.stream(covariance, first, covariance.length)
                        .map(r -> Arrays.copyOfRange(r, first, r.length))
                        .toArray(double[][]::new))
                .orElseThrow(() -> new IllegalArgumentException("columns " + containing + ": expected each once"));
        for (int a = 0; a < first; a++) {
            double[] shared = among.solve(Arrays.copyOfRange(covariance[a], first, covariance.length));
            for (int b = 0; b < shared.length; b++) {
                Vectors.takeAway(own[a], shared[b], others[b]);
            }
        }
        return own;
    }

    private double[][] units(List<Integer> columns) {
        var rows = new double[columns.size()][coefficients.length];
        for (int a = 0; a < rows.length; a++) {
            rows[a][columns.get(a)] = 1;
        }
        return rows;
    }

    /** L T, so that its rows' products are L Phi L'. */
    private double[][] whitened(double[][] rows) {
        if (Arrays.stream(rows).anyMatch(r -> r.length != coefficients.length)) {
            throw new IllegalArgumentException(
                    "rows " + Arrays.deepToString(rows) + ": expected " + coefficients.length + " weights each");
        }
        return Arrays.stream(rows).map(products::forward).toArray(double[][]::new);
    }

    private double[][] adjusted(double[][] white) {
        double[][] covariance = products(white, white);
        double[][] more = products(timesMatrix(white, added), white);
        for (int a = 0; a < covariance.length; a++) {
            Vectors.takeAway(covariance[a], -1, more[a]);
        }
        return covariance;
    }

    /** Left times right, right being symmetric. */
    private static double[][] timesMatrix(double[][] left, double[][] right) {
        return products(left, right);
    }

    /** All products of the rows of one with the rows of the other. */
    private static double[][] products(double[][] left, double[][] right) {
        return Arrays.stream(left)
                .map(l ->
                        Arrays.stream(right).mapToDouble(r -> Vectors.dot(l, r)).toArray())
                .toArray(double[][]::new);
    }
}
