package org.fairtray.statistics.linear;

import java.util.List;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Models;

/** Invented values of 17 things in 6 groups, less alike within a group than between groups. */
final class LessAlike {
    static final double[] VALUES = {3, 9, 4, 8, 10, 2, 5, 7, 11, 6, 3, 12, 8, 5, 9, 4, 10};
    static final Grouping GROUPS = Grouping.by(List.of(1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 4, 5, 5, 6, 6, 6));

    /** A base, x given to things and z given to groups. */
    static final ModelMatrix MODEL = Models.of(new double[][] {
        {1, 0, 0}, {1, 1, 0}, {1, 0, 0}, {1, 1, 1}, {1, 0, 1}, {1, 0, 1}, {1, 1, 0}, {1, 1, 0}, {1, 0, 0}, {1, 0, 1},
        {1, 1, 1}, {1, 1, 1}, {1, 1, 0}, {1, 0, 0}, {1, 0, 1}, {1, 1, 1}, {1, 1, 1}
    });

    private LessAlike() {}
}
