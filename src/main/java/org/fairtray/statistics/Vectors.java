package org.fairtray.statistics;

/** Sums of products over arrays of the same length. */
public final class Vectors {
    private Vectors() {}

    public static double dot(double[] a, double[] b) {
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += a[i] * b[i];
        }
        return sum;
    }

    public static double squaredLength(double[] a) {
        return dot(a, a);
    }

    /** Takes {@code times * b} away from a, in place. */
    public static void takeAway(double[] a, double times, double[] b) {
        for (int i = 0; i < a.length; i++) {
            a[i] -= times * b[i];
        }
    }

    public static double[] minus(double[] a, double[] b) {
        var difference = a.clone();
        takeAway(difference, 1, b);
        return difference;
    }
}
