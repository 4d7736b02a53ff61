package org.fairtray.design;

import java.util.Arrays;
import java.util.function.IntFunction;

/**
 * Something that a layout must keep to, counted up while what stands get changes one by one. What a stand gets is told by
 * a number from 0, its label.
 */
abstract class Restraint {
    /** The label of a stand that gets nothing. */
    static final int NOTHING = -1;

    private final int[] label;

    Restraint(int stands) {
        this.label = new int[stands];
        Arrays.fill(label, NOTHING);
    }

    /** What a stand gets from now on. */
    final void set(int stand, int now) {
        int old = label[stand];
        label[stand] = NOTHING;
        if (old != NOTHING) {
            changed(stand, old, -1);
        }
        if (now != NOTHING) {
            changed(stand, now, 1);
        }
        label[stand] = now;
    }

    final int label(int stand) {
        return label[stand];
    }

    /**
     * A stand that has no label at the moment gets one more, or one fewer, of it.
     *
     * @param by 1 or -1
     */
    abstract void changed(int stand, int which, int by);

    /** How much is amiss: 0 where it is kept. */
    abstract long breaches();

    /**
     * What is amiss, within a sentence; only where something is.
     *
     * @param names of the labels
     */
    abstract String amiss(IntFunction<String> names);
}
