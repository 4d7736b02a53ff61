package org.fairtray.design.search;

import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Square lattices: q² treatments in blocks of q, in up to q + 1 sets, whose blocks are the parallel lines of the affine
 * plane over the field of q elements. All q + 1 make it balanced.
 *
 * <p>Source (from memory): Yates (1936), A new method of arranging variety trials, Journal of Agricultural Science 26,
 * 424-455; Bose (1938), Sankhya 3, 323-338.
 */
final class SquareLattice {
    /** For fields of pⁿ elements, n above 1: p, and xⁿ as a number whose digits to the base p are its coefficients. */
    private static final Map<Integer, int[]> POWERS =
            Map.of(4, new int[] {2, 3}, 8, new int[] {2, 3}, 9, new int[] {3, 2});

    private SquareLattice() {}

    /** A lattice of so many sets; empty where there is no such field here, or too few sets of lines. */
    static Optional<int[][]> design(int q, int sets) {
        if (sets > q + 1 || !(isPrime(q) || POWERS.containsKey(q))) {
            return Optional.empty();
        }
        var design = new int[sets * q][q];
        for (int m = 0; m < sets; m++) {
            for (int c = 0; c < q; c++) {
                for (int x = 0; x < q; x++) {
                    design[m * q + c][x] = m == q ? c * q + x : x * q + plus(times(m, x, q), c, q);
                }
            }
        }
        return Optional.of(design);
    }

    private static boolean isPrime(int q) {
        return q > 1 && IntStream.range(2, q).allMatch(d -> q % d != 0);
    }

    private static int base(int q) {
        return POWERS.containsKey(q) ? POWERS.get(q)[0] : q;
    }

    private static int plus(int a, int b, int q) {
        int p = base(q);
        int sum = 0;
        for (int place = 1; place < q; place *= p) {
            sum += (a / place + b / place) % p * place;
        }
        return sum;
    }

    private static int times(int a, int b, int q) {
        int p = base(q);
        if (p == q) {
            return a * b % q;
        }
        int product = 0;
        int shifted = a;
        for (int rest = b; rest > 0; rest /= p) {
            for (int i = 0; i < rest % p; i++) {
                product = plus(product, shifted, q);
            }
            shifted = timesX(shifted, q, p);
        }
        return product;
    }

    private static int timesX(int a, int q, int p) {
        int over = a * p / q;
        int shifted = a * p % q;
        for (int i = 0; i < over; i++) {
            shifted = plus(shifted, POWERS.get(q)[1], q);
        }
        return shifted;
    }
}
