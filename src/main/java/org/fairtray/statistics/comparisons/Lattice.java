package org.fairtray.statistics.comparisons;

/**
 * Directions in r dimensions, evenly spread and always the same: point i has the coordinates i sqrt(prime_j) modulo 1
 * (Richtmyer), of which each second one is folded to |2x - 1| and turned into a radius, the next into an angle (Box and
 * Muller).
 *
 * <p>Source: Genz and Bretz (2009), Computation of Multivariate Normal and t Probabilities, section 4.2; Box and Muller
 * (1958), Annals of Mathematical Statistics 29, 610-611.
 */
final class Lattice {
    private final double[] generator;
    private final int dimensions;

    Lattice(int dimensions) {
        this.dimensions = dimensions;
        this.generator = new double[dimensions + dimensions % 2];
        int prime = 2;
        for (int j = 0; j < generator.length; j++) {
            generator[j] = Math.sqrt(prime) % 1;
            prime = nextPrime(prime);
        }
    }

    private static int nextPrime(int prime) {
        int next = prime + 1;
        while (!java.math.BigInteger.valueOf(next).isProbablePrime(30)) {
            next++;
        }
        return next;
    }

    /** The direction of a point, of length 1; points count from 1. */
    double[] direction(int point) {
        var direction = new double[dimensions];
        double squared = 0;
        for (int j = 0; j < dimensions; j += 2) {
            double folded = Math.abs(2 * (point * generator[j] % 1) - 1);
            double radius = Math.sqrt(-2 * Math.log(Math.max(folded, 1e-300)));
            double angle = 2 * Math.PI * (point * generator[j + 1] % 1);
            direction[j] = radius * Math.cos(angle);
            squared += direction[j] * direction[j];
            if (j + 1 < dimensions) {
                direction[j + 1] = radius * Math.sin(angle);
                squared += direction[j + 1] * direction[j + 1];
            }
        }
        double length = Math.sqrt(squared);
        for (int j = 0; j < dimensions; j++) {
            direction[j] /= length;
        }
        return direction;
    }
}
