package org.fairtray.audit;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.audit.Regularity.Way;
import org.fairtray.design.Fault;
import org.fairtray.design.Generator;
import org.fairtray.design.PlaceSymmetries;
import org.fairtray.design.Structure;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Tray;

/**
 * Layouts that are more regular than chance makes them. Every way of being regular, of every factor, is compared with what
 * it is after exchanges of places that keep the structure of the place; the smallest of all p-values is compared with the
 * smallest that each of the exchanged layouts gets among the others. So of layouts drawn by chance no more than the rate
 * asked for are called patterned, whatever their size and structure and however many ways are looked at.
 *
 * <p>Source: Westfall and Young (1993), Resampling-Based Multiple Testing, section 2.3 (smallest p-values; from memory).
 */
final class Patterns {
    /** Of layouts that chance drew, the share that may be called patterned. */
    static final double RATE = 1.0 / 200;

    /** The same where nothing shows that chance drew the layout. */
    static final double RATE_UNSEALED = 1.0 / 20;

    /** Where nothing shows it, a pattern without a break is named if chance makes it no more often than this. */
    private static final double PERFECT = 1.0 / 8;

    private static final List<Way> WAYS = List.of(Way.values());

    private static final int DRAWS = 999;
    private static final long SEED = 20_001;
    private static final double ROUNDING = 1e9;

    private final boolean sealed;
    private final List<Factor> factors;
    private final List<Regularity> looks;
    /** By way of each factor, the exchanged layouts' values, ascending. */
    private final double[][] reference;
    /** The smallest p of the layout itself and of the exchanged ones, ascending. */
    private final double[] smallest;

    private Patterns(Structure structure, boolean sealed) {
        this.sealed = sealed;
        this.factors = structure.trial().factors();
        var trays = structure.trays();
        this.looks = factors.stream()
                .map(f -> Regularity.of(structure.trial(), trays, f))
                .toList();
        var rows = new ArrayList<double[]>();
        var levels = levels(trays);
        rows.add(values(levels));
        PlaceSymmetries.of(structure)
                .draw(DRAWS, Generator.of(SEED), source -> rows.add(values(exchanged(levels, source))));
        double[] own = rows.get(0);
        this.reference = new double[own.length][];
        for (int c = 0; c < own.length; c++) {
            int column = c;
            reference[c] =
                    rows.stream().skip(1).mapToDouble(r -> r[column]).sorted().toArray();
        }
        this.smallest =
                rows.stream().mapToDouble(r -> smallest(r, own)).sorted().toArray();
    }

    /** The smallest p of one of the layouts among all of them, the layout itself included. */
    private double smallest(double[] values, double[] own) {
        int most = Integer.MAX_VALUE;
        for (int c = 0; c < values.length; c++) {
            most = Math.min(most, atLeast(reference[c], values[c]) + (own[c] >= values[c] ? 1 : 0));
        }
        return Math.min(1, (double) most / (1 + DRAWS));
    }

    /**
     * What chance makes of a layout.
     *
     * @param sealed whether a seal shows that chance drew it
     */
    static Patterns of(Structure structure, boolean sealed) {
        return new Patterns(structure, sealed);
    }

    private List<int[]> levels(List<Tray> trays) {
        return factors.stream()
                .map(f -> trays.stream()
                        .mapToInt(t -> f.levels().indexOf(t.treatment().level(f.name())))
                        .toArray())
                .toList();
    }

    private static List<int[]> exchanged(List<int[]> levels, int[] source) {
        var exchanged = new ArrayList<int[]>();
        for (int[] level : levels) {
            var moved = new int[source.length];
            for (int t = 0; t < source.length; t++) {
                moved[t] = level[source[t]];
            }
            exchanged.add(moved);
        }
        return exchanged;
    }

    /** Asked of a thousand layouts, so it is written out. */
    private double[] values(List<int[]> levels) {
        var values = new double[factors.size() * WAYS.size()];
        int column = 0;
        for (int f = 0; f < factors.size(); f++) {
            for (Way way : WAYS) {
                values[column++] = Math.rint(looks.get(f).of(way, levels.get(f)) * ROUNDING) / ROUNDING;
            }
        }
        return values;
    }

    private static int atLeast(double[] ascending, double value) {
        int low = 0;
        int high = ascending.length;
        while (low < high) {
            int middle = (low + high) / 2;
            if (ascending[middle] < value) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return ascending.length - low;
    }

    /** The patterns of these trays, or of the same with some exchanged; the clearest of each factor. */
    List<Fault> faults(List<Tray> trays) {
        var levels = levels(trays);
        double[] values = values(levels);
        Map<Integer, Fault> faults = new HashMap<>();
        Map<Integer, Double> clearest = new HashMap<>();
        int ways = WAYS.size();
        for (int c = 0; c < values.length; c++) {
            int f = c / ways;
            double p = p(c, values[c]);
            var found = fault(f, WAYS.get(c % ways), p, levels.get(f));
            if (found.isPresent() && p < clearest.getOrDefault(f, 1.0)) {
                clearest.put(f, p);
                faults.put(f, found.get());
            }
        }
        return IntStream.range(0, factors.size())
                .mapToObj(faults::get)
                .filter(f -> f != null)
                .toList();
    }

    /** How regular these trays are at most: from 0, as chance makes them, to 1. */
    double regularity(List<Tray> trays) {
        double[] values = values(levels(trays));
        return 1
                - IntStream.range(0, values.length)
                        .mapToDouble(c -> p(c, values[c]))
                        .min()
                        .orElse(1);
    }

    private double p(int column, double value) {
        return (double) (1 + atLeast(reference[column], value)) / (1 + reference[column].length);
    }

    private Optional<Fault> fault(int f, Way way, double p, int[] levels) {
        double inAll = (double) (smallest.length - atLeast(smallest, Math.nextUp(p))) / smallest.length;
        boolean rare = inAll <= (sealed ? RATE : RATE_UNSEALED);
        boolean unbroken = !sealed && p <= PERFECT && looks.get(f).perfect(way, levels);
        if (!rare && !unbroken) {
            return Optional.empty();
        }
        return Optional.of(new Fault(
                Fault.Kind.PATTERNED,
                List.of(factors.get(f).name()),
                List.of(),
                looks.get(f).words(way) + " Chance makes a layout so regular about once in "
                        + Math.round(1 / Math.max(inAll, 1.0 / smallest.length)) + ".",
                sealed
                        ? "Chance drew it all the same. Before sowing, lay it again (lay --replace)."
                        : "Let lay draw the order."));
    }
}
