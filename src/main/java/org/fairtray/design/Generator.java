package org.fairtray.design;

import java.util.Collections;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.core.source64.SplitMix64;
import org.apache.commons.rng.core.source64.XoShiRo256PlusPlus;

/**
 * The random generator behind every draw, named so that a seal can be checked anywhere: xoshiro256++, its state filled
 * from the seed by SplitMix64.
 *
 * <p>Source: Blackman and Vigna (2021), Scrambled linear pseudorandom number generators, ACM Transactions on Mathematical
 * Software 47, 36.
 */
public final class Generator {
    /** What a seal calls it. */
    public static final String NAME = "xoshiro256++, seeded by SplitMix64";

    /** The stream of counting frames. */
    static final int FRAMES = 1;

    /** The stream of trays that change places. */
    static final int MOVES = 2;

    private Generator() {}

    /** A generator that gives the same numbers for the same seed on every machine. */
    public static UniformRandomProvider of(long seed) {
        return of(seed, 0);
    }

    /**
     * One of several generators of one seed that never meet: the first, jumped on by so many times 2^128 numbers.
     *
     * @param stream from 0, the first itself
     */
    static UniformRandomProvider of(long seed, int stream) {
        var filler = new SplitMix64(seed);
        var generator =
                new XoShiRo256PlusPlus(filler.nextLong(), filler.nextLong(), filler.nextLong(), filler.nextLong());
        for (int i = 0; i < stream; i++) {
            generator.jump();
        }
        return generator;
    }

    /** Puts a list in random order, each order equally likely (Fisher and Yates). */
    static void shuffle(List<?> list, UniformRandomProvider random) {
        for (int i = list.size() - 1; i > 0; i--) {
            Collections.swap(list, i, random.nextInt(i + 1));
        }
    }

    /** The same for numbers; the same draws give the same order. */
    static void shuffle(int[] numbers, UniformRandomProvider random) {
        for (int i = numbers.length - 1; i > 0; i--) {
            int other = random.nextInt(i + 1);
            int kept = numbers[i];
            numbers[i] = numbers[other];
            numbers[other] = kept;
        }
    }
}
