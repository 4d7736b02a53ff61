package org.fairtray.statistics.pooling;

import java.util.List;
import java.util.stream.IntStream;

/**
 * The studies put together as they came: the first alone, the first two, and so on. The work for each is that of its studies,
 * so all sizes of k studies take k^2 / 2; with thousands a caller asks for some sizes only.
 *
 * <p>Source: Lau and others (1992), New England Journal of Medicine 327, 248-254.
 */
public final class Cumulative {
    private Cumulative() {}

    /** The results of the first 1, 2, ... k studies, in the order given; alpha in (0, 1). */
    public static List<RandomEffects> of(List<Study> studies, double alpha) {
        return of(studies, IntStream.rangeClosed(1, studies.size()).boxed().toList(), alpha);
    }

    /**
     * The results of the first so many studies, in the order given.
     *
     * @param sizes how many, each from 1 to the number of studies
     * @param alpha in (0, 1)
     * @throws IllegalArgumentException if a size is out of range
     */
    public static List<RandomEffects> of(List<Study> studies, List<Integer> sizes, double alpha) {
        if (sizes.stream().anyMatch(size -> size < 1 || size > studies.size())) {
            throw new IllegalArgumentException("sizes " + sizes + ": expected 1 to " + studies.size());
        }
        return sizes.stream()
                .map(size -> RandomEffects.of(studies.subList(0, size), alpha))
                .toList();
    }
}
