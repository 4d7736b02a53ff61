package org.fairtray.design.search;

import java.util.Arrays;
import java.util.Optional;

/**
 * Regular fractions of k factors at two levels in 2ᵐ runs. Run r gives factor i the parity of the digits that r and the
 * factor's number share; m factors have the numbers 1, 2, 4 ..., and the others those that make the fewest short words
 * (minimum aberration, the largest resolution with it).
 *
 * <p>Sources (from memory): Box and Hunter (1961), The 2^(k-p) fractional factorial designs, Technometrics 3, 311-351; Fries
 * and Hunter (1980), Technometrics 22, 601-608.
 */
public final class Fraction {
    private static final double MOST_CHOICES = 50_000;

    private final int factors;
    private final int digits;
    private final int[] numbers;
    private int[] best;
    private int[] fewest;

    private Fraction(int factors, int digits) {
        this.factors = factors;
        this.digits = digits;
        this.numbers = new int[factors];
        for (int i = 0; i < digits; i++) {
            numbers[i] = 1 << i;
        }
    }

    /**
     * The runs, each a number whose binary digits are the levels, the last factor's last; empty where runs are too few for
     * the factors or there are too many choices to go through.
     */
    static Optional<int[]> runs(int factors, int digits) {
        double choices = 1;
        int others = (1 << digits) - 1 - digits;
        for (int i = 0; i < factors - digits; i++) {
            choices *= (double) (others - i) / (i + 1);
        }
        if (choices < 1 || choices > MOST_CHOICES) {
            return Optional.empty();
        }
        var fraction = new Fraction(factors, digits);
        fraction.choose(digits, 1);
        return Optional.of(fraction.runs());
    }

    private void choose(int at, int from) {
        if (at == factors) {
            int[] words = words(numbers);
            if (fewest == null || Arrays.compare(words, fewest) < 0) {
                fewest = words;
                best = numbers.clone();
            }
            return;
        }
        for (int n = from; n < 1 << digits; n++) {
            if (Integer.bitCount(n) > 1) {
                numbers[at] = n;
                choose(at + 1, n + 1);
            }
        }
    }

    /** How many words of each length define the fraction of factors with these numbers: sets of factors that add up to 0. */
    static int[] words(int[] numbers) {
        var words = new int[numbers.length + 1];
        for (int set = 1; set < 1 << numbers.length; set++) {
            int sum = 0;
            for (int i = 0; i < numbers.length; i++) {
                sum ^= (set >> i & 1) == 1 ? numbers[i] : 0;
            }
            if (sum == 0) {
                words[Integer.bitCount(set)]++;
            }
        }
        return words;
    }

    private int[] runs() {
        var runs = new int[1 << digits];
        for (int r = 0; r < runs.length; r++) {
            for (int number : best) {
                runs[r] = 2 * runs[r] + Integer.bitCount(r & number) % 2;
            }
        }
        return runs;
    }
}
