package org.fairtray.trial;

/**
 * The size of a tray, or of a counting frame in it, seen from above.
 *
 * @param across cm from left to right, above 0
 * @param deep cm from front to back, above 0
 */
public record Area(double across, double deep) {

    /** @throws IllegalArgumentException if a side is not above 0 */
    public Area {
        if (!(across > 0 && deep > 0)) {
            throw new IllegalArgumentException(across + " × " + deep + " cm: expected sides above 0");
        }
    }

    /** In cm². */
    public double size() {
        return across * deep;
    }

    /** A length in cm as one writes it: 12, 12.5. */
    public static String cm(double length) {
        return length == Math.rint(length) ? Long.toString((long) length) : Double.toString(length);
    }
}
