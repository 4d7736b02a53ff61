package org.fairtray.design;

import java.util.function.IntFunction;

/** Like labels don't lie beside each other; a breach is a pair that does. */
final class Apart extends Restraint {
    private final int[][] beside;
    private long pairs;

    /** @param beside of each stand, those beside it */
    Apart(int[][] beside) {
        super(beside.length);
        this.beside = beside;
    }

    @Override
    void changed(int stand, int which, int by) {
        for (int other : beside[stand]) {
            pairs += label(other) == which ? by : 0;
        }
    }

    @Override
    long breaches() {
        return pairs;
    }

    @Override
    String amiss(IntFunction<String> names) {
        for (int stand = 0; stand < beside.length; stand++) {
            for (int other : beside[stand]) {
                if (label(stand) != NOTHING && label(stand) == label(other)) {
                    return pairs + (pairs == 1 ? " pair lies" : " pairs lie") + " side by side, such as two of "
                            + names.apply(label(stand));
                }
            }
        }
        return "";
    }
}
