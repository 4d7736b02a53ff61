package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Trial;

/**
 * New row-and-column arrangements of one factor, as the plan draws them. Each arrangement is told by the number of the
 * level of every unit.
 *
 * <p>Source: Kempthorne (1955), The randomization theory of experimental inference, Journal of the American Statistical
 * Association 50, 946-967.
 */
public final class Redraw implements Arrangements {
    /** An efficiency this near to 1 is 1. */
    private static final double ROUNDING = 1e-7;

    private final Step step;
    private final int levels;
    /** The units of each group of the step, row by row, column by column. */
    private final List<int[]> groups;

    private final int units;
    private final double number;

    private Redraw(Step step, List<int[]> groups) {
        this.step = step;
        this.levels = step.factors().get(0).levels().size();
        this.groups = groups;
        this.units = groups.stream().mapToInt(g -> g.length).sum();
        this.number = count();
    }

    /**
     * The redraw of a factor, where it is the only one of its step, alone in its stratum, and the trays are those of a
     * whole layout of the plan.
     */
    static Optional<Redraw> of(Structure structure, Term term, int stratum) {
        var trial = structure.trial();
        if (!term.isMain() || !trial.never().isEmpty() || !isAlone(structure, term, stratum)) {
            return Optional.empty();
        }
        var factor = trial.factor(term.factors().get(0));
        return steps(trial).stream()
                .filter(s -> s.crossed() && !s.searched())
                .filter(s -> s.factors().equals(List.of(factor)))
                .findFirst()
                .flatMap(s -> of(structure, s, new StratumUnits(structure, stratum)));
    }

    private static List<Step> steps(Trial trial) {
        try {
            return Randomisation.of(trial).steps();
        } catch (DoesNotFitException e) {
            return List.of();
        }
    }

    private static boolean isAlone(Structure structure, Term term, int stratum) {
        var parts = structure.decomposition().parts().stream()
                .filter(p -> p.stratum() == stratum)
                .toList();
        return structure.strata().isEven(stratum)
                && parts.size() == 1
                && parts.get(0).efficiency() > 1 - ROUNDING
                && structure.parts(term).contains(parts.get(0))
                && parts.get(0).df()
                        == structure.decomposition().nominalDf(parts.get(0).term());
    }

    private static Optional<Redraw> of(Structure structure, Step step, StratumUnits units) {
        String factor = step.factors().get(0).name();
        int trays = structure.trays().size() / units.count();
        if (!units.areUnitsOf(step.level())
                || !units.haveOne(factor)
                || IntStream.range(0, units.count())
                        .anyMatch(u -> units.trays(u).size() != trays)) {
            return Optional.empty();
        }
        var place = structure.trial().place();
        Map<List<Integer>, Integer> numbers = new HashMap<>();
        for (int u = 0; u < units.count(); u++) {
            var stand = units.trays(u).get(0).stand();
            numbers.put(Units.of(place.key(step.level()), stand.at()), u);
        }
        var groups = new ArrayList<int[]>();
        for (var group : step.groups(place)) {
            if (!numbers.keySet().containsAll(group)) {
                return Optional.empty();
            }
            groups.add(group.stream().mapToInt(numbers::get).toArray());
        }
        var redraw = new Redraw(step, groups);
        return redraw.allows(units, factor) ? Optional.of(redraw) : Optional.empty();
    }

    /** Whether the actual layout is one that could be drawn: no level twice in a cell (rows and columns are even). */
    private boolean allows(StratumUnits units, String factor) {
        return groups.stream()
                .allMatch(g -> IntStream.range(0, g.length / step.perCell())
                        .allMatch(c -> IntStream.range(c * step.perCell(), (c + 1) * step.perCell())
                                        .mapToObj(i -> units.level(g[i], factor))
                                        .distinct()
                                        .count()
                                == step.perCell()));
    }

    Step step() {
        return step;
    }

    /** The units of each group of the step, row by row, column by column. */
    List<int[]> groups() {
        return groups;
    }

    /** How many levels the factor has. */
    public int levels() {
        return levels;
    }

    @Override
    public Scheme scheme() {
        return Scheme.REDRAWN;
    }

    @Override
    public String description() {
        return "new arrangements of " + step.what() + " over " + step.within().get(0) + " and "
                + step.within().get(1) + " were made as the plan makes them";
    }

    @Override
    public double number() {
        return number;
    }

    /** Every exchange of names among the levels. */
    @Override
    public double alike() {
        double product = 1;
        for (int i = 2; i <= levels; i++) {
            product *= i;
        }
        return product;
    }

    private double count() {
        var search = new Search(a -> {}, MANY);
        search.from(0, 0);
        return search.found < MANY ? search.found : Double.POSITIVE_INFINITY;
    }

    @Override
    public void all(Consumer<int[]> visitor) {
        new Search(visitor, Integer.MAX_VALUE).from(0, 0);
    }

    /** Fills unit after unit with every level that its row, column and cell have room for. */
    private final class Search {
        private final Consumer<int[]> visitor;
        private final int most;
        private final int[] arrangement = new int[units];
        private final int[][][] inRow = new int[groups.size()][step.rows()][levels];
        private final int[][][] inColumn = new int[groups.size()][step.columns()][levels];
        private final int[][][] inCell = new int[groups.size()][step.rows() * step.columns()][levels];
        private int found;

        Search(Consumer<int[]> visitor, int most) {
            this.visitor = visitor;
            this.most = most;
        }

        void from(int g, int i) {
            if (g == groups.size()) {
                found++;
                visitor.accept(arrangement);
            } else if (i == groups.get(g).length) {
                from(g + 1, 0);
            } else {
                for (int level = 0; level < levels && found < most; level++) {
                    tryLevel(g, i, level);
                }
            }
        }

        private void tryLevel(int g, int i, int level) {
            int cell = i / step.perCell();
            int[] row = inRow[g][cell / step.columns()];
            int[] column = inColumn[g][cell % step.columns()];
            boolean room = row[level] < step.columns() * step.perCell() / levels
                    && column[level] < step.rows() * step.perCell() / levels
                    && inCell[g][cell][level] == 0;
            if (room) {
                count(row, column, inCell[g][cell], level, 1);
                arrangement[groups.get(g)[i]] = level;
                from(g, i + 1);
                count(row, column, inCell[g][cell], level, -1);
            }
        }

        private static void count(int[] row, int[] column, int[] cell, int level, int by) {
            row[level] += by;
            column[level] += by;
            cell[level] += by;
        }
    }

    @Override
    public void draw(int draws, UniformRandomProvider random, Consumer<int[]> visitor) {
        var walks = new ArrayList<Supplier<int[][][]>>();
        groups.forEach(g -> walks.add(Rectangle.draws(step.rows(), step.columns(), step.perCell(), levels, random)));
        var arrangement = new int[units];
        for (int draw = 0; draw < draws; draw++) {
            for (int g = 0; g < walks.size(); g++) {
                fill(arrangement, groups.get(g), walks.get(g).get());
            }
            visitor.accept(arrangement);
        }
    }

    private static void fill(int[] arrangement, int[] group, int[][][] drawn) {
        int i = 0;
        for (int[][] row : drawn) {
            for (int[] cell : row) {
                for (int level : cell) {
                    arrangement[group[i++]] = level;
                }
            }
        }
    }
}
