package org.fairtray.design.search;

import java.util.List;
import java.util.stream.IntStream;

/**
 * What is to be given to which units. No array may be changed afterwards.
 *
 * @param blocks groupings of the units whose differences are set aside, each as the number of every unit's group, from 0
 * @param together the number of the group within which candidates are dealt out evenly and interchanged
 * @param kind for every unit which rows hold for it: units inside outer units that got something else differ in kind
 * @param rows by kind and candidate, the columns of the model; null for a candidate that such a unit never gets
 * @param prior for every column how many units' worth is known of it beforehand: 0 for one of interest, more for one that
 *     there may be no room for (DuMouchel and Jones 1994)
 * @param free whether the numbers of the candidates may be unequal where that tells more
 */
public record Problem(List<int[]> blocks, int[] together, int[] kind, double[][][] rows, double[] prior, boolean free) {

    /** @throws IllegalArgumentException if the arrays don't speak of the same units and columns, or there is no unit */
    public Problem {
        blocks = List.copyOf(blocks);
        int units = kind.length;
        if (units == 0 || together.length != units || blocks.stream().anyMatch(b -> b.length != units)) {
            throw new IllegalArgumentException(units + " units, " + together.length
                    + " of them dealt to: expected the same number, 1 or more, in every grouping too");
        }
    }

    /** How many units there are. */
    public int units() {
        return kind.length;
    }

    /** How many columns the model has. */
    public int columns() {
        return prior.length;
    }

    /** How many candidates there are. */
    public int candidates() {
        return rows[0].length;
    }

    /** The columns of a unit that gets a candidate; null if it never does. */
    double[] row(int unit, int candidate) {
        return rows[kind[unit]][candidate];
    }

    /** The numbers of the columns that are of interest. */
    public int[] ofInterest() {
        return IntStream.range(0, columns()).filter(c -> prior[c] == 0).toArray();
    }

    /** Whether it is the plain question of block designs: one factor, every candidate for every unit. */
    boolean isOneFactor() {
        return rows.length == 1 && columns() == candidates() - 1 && ofInterest().length == columns();
    }
}
