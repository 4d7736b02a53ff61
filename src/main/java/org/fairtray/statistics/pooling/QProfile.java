package org.fairtray.statistics.pooling;

import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.Tail;

/**
 * An interval for the variance between studies: all tau^2 at which what is left, y'Py, is neither too large nor too small for a
 * chi-squared value with k - p degrees of freedom. y'Py falls as tau^2 rises, so each end is one root.
 *
 * <p>Source: Viechtbauer (2007), Statistics in Medicine 26, 37-52.
 */
final class QProfile {
    private QProfile() {}

    /** Empty where the estimates are more alike than the variances allow even at tau^2 = 0. */
    static Optional<Interval> of(Pool pool, double alpha) {
        double least = Tail.chiSquaredQuantile(alpha / 2, pool.free());
        double most = Tail.chiSquaredQuantile(1 - alpha / 2, pool.free());
        double atZero = pool.at(0).q();
        if (atZero < least) {
            return Optional.empty();
        }
        var low = atZero <= most ? OptionalDouble.of(0) : fallenTo(pool, most);
        var high = fallenTo(pool, least);
        return low.isPresent() && high.isPresent()
                ? Optional.of(new Interval(low.getAsDouble(), high.getAsDouble()))
                : Optional.empty();
    }

    /** The tau^2 at which y'Py has fallen to a value that it begins above. */
    private static OptionalDouble fallenTo(Pool pool, double value) {
        double before = 0;
        double here = pool.smallestVariance();
        while (pool.at(here).q() > value) {
            before = here;
            here *= 2;
        }
        return Root.of(t -> pool.at(t).q() - value, before, here);
    }
}
