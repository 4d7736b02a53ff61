package org.fairtray.sizing;

import org.apache.commons.rng.UniformRandomProvider;

/** Standard normal numbers. */
public final class Normal {
    private Normal() {}

    /** One number, by Box and Muller (1958), Annals of Mathematical Statistics 29, 610-611. */
    public static double draw(UniformRandomProvider random) {
        double u = 1 - random.nextDouble();
        return Math.sqrt(-2 * Math.log(u)) * Math.cos(2 * Math.PI * random.nextDouble());
    }
}
