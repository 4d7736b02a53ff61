package org.fairtray.pooling;

import java.util.function.Consumer;

/** Trials to pool, wherever they lie; they are gone through one at a time, and more than once. */
public interface SharedTrials {
    /** Hands over each, always in the same order. */
    void forEach(Consumer<? super SharedTrial> taker);
}
