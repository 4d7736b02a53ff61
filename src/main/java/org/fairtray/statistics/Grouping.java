package org.fairtray.statistics;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** A division of n things into groups numbered from 0, such as trays into stacks. Immutable. */
public final class Grouping {
    private final int[] of;
    private final int groups;

    private Grouping(int[] of, int groups) {
        this.of = of;
        this.groups = groups;
    }

    /** Groups things by equal labels, numbered in the order of first sight. */
    public static Grouping by(List<?> labels) {
        Map<Object, Integer> numbers = new HashMap<>();
        int[] of = labels.stream()
                .mapToInt(label -> {
                    numbers.putIfAbsent(label, numbers.size());
                    return numbers.get(label);
                })
                .toArray();
        return new Grouping(of, numbers.size());
    }

    /** All things in one group. */
    public static Grouping whole(int n) {
        return new Grouping(new int[n], 1);
    }

    /** The group of each thing. */
    public int[] of() {
        return of.clone();
    }

    /** How many groups there are; none is empty. */
    public int groups() {
        return groups;
    }

    /** How many things there are. */
    public int size() {
        return of.length;
    }

    /** How many things each group has. */
    public int[] sizes() {
        var sizes = new int[groups];
        for (int group : of) {
            sizes[group]++;
        }
        return sizes;
    }

    /** How many things the group of a thing has, on average over the things. */
    public double sizeSeenFromInside() {
        double sum = 0;
        for (int size : sizes()) {
            sum += (double) size * size;
        }
        return sum / of.length;
    }

    /** Sums of a vector by group. */
    public double[] sums(double[] vector) {
        var sums = new double[groups];
        for (int i = 0; i < of.length; i++) {
            sums[of[i]] += vector[i];
        }
        return sums;
    }

    /** Each thing's value replaced by the mean of its group. */
    public double[] average(double[] vector) {
        var means = sums(vector);
        int[] sizes = sizes();
        for (int g = 0; g < groups; g++) {
            means[g] /= sizes[g];
        }
        return Arrays.stream(of).mapToDouble(g -> means[g]).toArray();
    }

    /** Whether every group of this one lies in one group of the other. */
    public boolean finerThan(Grouping other) {
        var outer = new int[groups];
        Arrays.fill(outer, -1);
        for (int i = 0; i < of.length; i++) {
            if (outer[of[i]] >= 0 && outer[of[i]] != other.of[i]) {
                return false;
            }
            outer[of[i]] = other.of[i];
        }
        return true;
    }

    /** One column of 0s and 1s for each group. */
    public List<double[]> indicators() {
        var columns = new double[groups][of.length];
        for (int i = 0; i < of.length; i++) {
            columns[of[i]][i] = 1;
        }
        return Arrays.asList(columns);
    }

    @Override
    public String toString() {
        return groups + " groups of " + of.length;
    }
}
