package org.fairtray.statistics.logistic;

/**
 * Nodes and weights of the Gauss-Hermite rule, which integrates exp(-x^2) times any polynomial of degree below 2k exactly:
 *
 * <pre>  integral of exp(-x^2) f(x) dx  is about  sum over j of w_j f(x_j)</pre>
 *
 * Nodes are the roots of the k-th orthonormal Hermite polynomial, found by Newton's method from the largest down; a root
 * found is divided out, so that the next start can't fall back to it. With h_k the polynomial, w_j = 2 / h_k'(x_j)^2.
 *
 * <p>Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, sections 25.4.46 (rule) and 22.7 (recurrence);
 * weights for orthonormal polynomials: Press and others (2007), Numerical Recipes, 3rd ed., section 4.6.
 */
final class GaussHermite {
    private static final int MOST_STEPS = 200;

    private final double[] nodes;
    private final double[] weights;

    private GaussHermite(int points) {
        this.nodes = new double[points];
        this.weights = new double[points];
    }

    /**
     * The rule of k points.
     *
     * @throws IllegalArgumentException if k is not 1 to 100
     */
    static GaussHermite of(int points) {
        if (points < 1 || points > 100) {
            throw new IllegalArgumentException(points + " points: expected 1 to 100");
        }
        var rule = new GaussHermite(points);
        double guess = Math.sqrt(2 * points + 1.0);
        for (int j = 0; j < points; j++) {
            guess = rule.root(guess, j);
            rule.nodes[j] = guess;
            double slope = slope(points, guess);
            rule.weights[j] = 2 / (slope * slope);
        }
        return rule;
    }

    /** The largest root below those {@code found} already; from above Newton's steps go down to it and don't pass it. */
    private double root(double from, int found) {
        double x = found == 0 ? from : from - 1e-6;
        for (int step = 0; step < MOST_STEPS; step++) {
            double value = value(nodes.length, x);
            double logarithmicSlope = slope(nodes.length, x) / value;
            for (int j = 0; j < found; j++) {
                logarithmicSlope -= 1 / (x - nodes[j]);
            }
            double move = value == 0 ? 0 : 1 / logarithmicSlope;
            x -= move;
            if (Math.abs(move) < 1e-15 * (1 + Math.abs(x))) {
                break;
            }
        }
        return x;
    }

    /** The orthonormal polynomial: h_0 = pi^(-1/4), h_j = x sqrt(2/j) h_(j-1) - sqrt((j-1)/j) h_(j-2). */
    private static double value(int degree, double x) {
        double before = 0;
        double last = Math.pow(Math.PI, -0.25);
        for (int j = 1; j <= degree; j++) {
            double next = x * Math.sqrt(2.0 / j) * last - Math.sqrt((j - 1.0) / j) * before;
            before = last;
            last = next;
        }
        return last;
    }

    private static double slope(int degree, double x) {
        return Math.sqrt(2.0 * degree) * value(degree - 1, x);
    }

    /** How many points there are. */
    int points() {
        return nodes.length;
    }

    /** Node j, the largest first. */
    double node(int j) {
        return nodes[j];
    }

    /** The weight of node j. */
    double weight(int j) {
        return weights[j];
    }
}
