package org.fairtray.design.search;

import java.util.function.Consumer;
import java.util.stream.IntStream;

/**
 * Alpha designs: resolvable, r sets of s blocks of k. In set i, block j holds treatment l·s + (j + a_il mod s) for each place
 * l; the array a is drawn at random.
 *
 * <p>Source (from memory): Patterson and Williams (1976), A new class of resolvable incomplete block designs, Biometrika 63,
 * 83-92.
 */
final class Alpha {
    private Alpha() {}

    static int[][] design(int s, int k, int r, Consumer<int[]> shuffle) {
        var design = new int[r * s][k];
        for (int i = 0; i < r; i++) {
            for (int l = 0; l < k; l++) {
                int[] shifts = IntStream.range(0, s).toArray();
                shuffle.accept(shifts);
                int a = i == 0 || l == 0 ? 0 : shifts[0];
                for (int j = 0; j < s; j++) {
                    design[i * s + j][l] = l * s + (j + a) % s;
                }
            }
        }
        return design;
    }
}
