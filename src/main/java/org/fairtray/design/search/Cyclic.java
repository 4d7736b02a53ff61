package org.fairtray.design.search;

import java.util.Optional;

/**
 * Cyclic designs of v blocks: one block of treatments, and it with 1, 2, ... added modulo v. Its order kept, each place in
 * the block has every treatment once, so it serves as rows and columns too (Youden squares).
 *
 * <p>Source (from memory): John and Williams (1995), Cyclic and Computer Generated Designs, 2nd ed., chapter 3; a block
 * whose differences come equally often is a difference set and makes the design balanced (Bose 1939).
 */
final class Cyclic {
    private static final double MOST_BLOCKS = 200_000;

    private Cyclic() {}

    /** The design whose first block has differences that come as equally often as can be; empty where there are too many. */
    static Optional<int[][]> design(int v, int k) {
        double choices = 1;
        for (int i = 1; i < k; i++) {
            choices *= (double) (v - i) / i;
        }
        if (choices > MOST_BLOCKS) {
            return Optional.empty();
        }
        var search = new Blocks(v, k);
        search.from(1);
        var design = new int[v][k];
        for (int b = 0; b < v; b++) {
            for (int i = 0; i < k; i++) {
                design[b][i] = (search.best[i] + b) % v;
            }
        }
        return Optional.of(design);
    }

    private static final class Blocks {
        private final int v;
        private final int[] block;
        private int[] best;
        private long least = Long.MAX_VALUE;

        Blocks(int v, int k) {
            this.v = v;
            this.block = new int[k];
            this.best = block;
        }

        void from(int at) {
            if (at == block.length) {
                long squares = squares();
                if (squares < least) {
                    least = squares;
                    best = block.clone();
                }
                return;
            }
            for (int t = block[at - 1] + 1; t <= v - block.length + at; t++) {
                block[at] = t;
                from(at + 1);
            }
        }

        private long squares() {
            var times = new int[v];
            for (int a : block) {
                for (int b : block) {
                    times[(a - b + v) % v]++;
                }
            }
            long sum = 0;
            for (int d = 1; d < v; d++) {
                sum += (long) times[d] * times[d];
            }
            return sum;
        }
    }
}
