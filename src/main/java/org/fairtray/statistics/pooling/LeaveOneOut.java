package org.fairtray.statistics.pooling;

import java.util.ArrayList;
import java.util.List;

/**
 * The studies put together without each of them in turn: does one study alone make the result? The work grows with the square
 * of their number, and so does the memory, since each result keeps its studies: with 500 studies it takes seconds, with
 * thousands the caller should ask first.
 *
 * <p>Source: Viechtbauer and Cheung (2010), Research Synthesis Methods 1, 112-125.
 */
public final class LeaveOneOut {
    private LeaveOneOut() {}

    /**
     * The results without study 0, without study 1 and so on; none where there are fewer than two studies.
     *
     * @param alpha in (0, 1)
     */
    public static List<RandomEffects> of(List<Study> studies, double alpha) {
        var results = new ArrayList<RandomEffects>();
        for (int out = 0; studies.size() > 1 && out < studies.size(); out++) {
            var others = new ArrayList<>(studies);
            others.remove(out);
            results.add(RandomEffects.of(others, alpha));
        }
        return List.copyOf(results);
    }
}
