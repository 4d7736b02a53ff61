package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.fairtray.findings.Pooled;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.MixedLogisticFit;

/**
 * All trays of all trials in one mixed logistic model: each level against the one compared with, normal random intercepts of
 * farms, of levels within farms, of what else trays stand in, and of trays, by maximum likelihood in the Laplace
 * approximation. What is random of levels within farms is what a random slope is: the effect of a level differs from farm
 * to farm with twice that variance. Since effects are held against how they differ between farms, intervals and tests take
 * Student's t with one degree of freedom less than farms.
 *
 * <p>Sources: Breslow and Clayton (1993), Journal of the American Statistical Association 88, 9-25; Simmonds and Higgins
 * (2016), Statistical Methods in Medical Research 25, 2858-2877 (one-stage pooling of binary outcomes); Schluchter and Elashoff
 * (1990), Journal of Statistical Computation and Simulation 37, 69-87 (degrees of freedom between units; from memory).
 */
final class OneStage {
    private static final String FARM = "farm";
    private static final String SLOPE = "slope";
    private static final String TRIAL = "trial";
    private static final String OTHERS = "other factors";
    private static final String PLACE = "place";
    private static final String TRAY = "tray";

    private final List<String> levels;
    private final double alpha;
    private final List<String> rowLevels = new ArrayList<>();
    private final List<Count> counts = new ArrayList<>();
    private final Map<String, List<Object>> labels = new LinkedHashMap<>();

    private OneStage(List<String> levels, double alpha) {
        this.levels = levels;
        this.alpha = alpha;
        List.of(FARM, SLOPE, TRIAL, OTHERS, PLACE, TRAY).forEach(n -> labels.put(n, new ArrayList<>()));
    }

    /**
     * Fits what trials bring.
     *
     * @param levels the one compared with first; trays with other levels are left out
     * @return by level; empty where there are no counts tray by tray, or of one farm alone
     */
    static Map<String, Pooled.OneStage> of(
            List<Brought> all, List<Gathered.Line> lines, List<String> levels, double alpha) {
        var model = new OneStage(levels, alpha);
        all.forEach(b -> b.trays().ifPresent(t -> model.add(b, t, lines.get(b.trial()))));
        return model.distinct(FARM) < 2 ? Map.of() : model.fitted();
    }

    private void add(Brought brought, Brought.Trays trays, Gathered.Line line) {
        var counts = trays.counts();
        for (int i = 0; i < counts.treatment().size(); i++) {
            var others =
                    new TreeMap<>(counts.treatments().get(counts.treatment().get(i)));
            var level = trays.common().get(others.remove(trays.factor()));
            if (levels.contains(level)) {
                rowLevels.add(level);
                this.counts.add(
                        new Count(counts.successes().get(i), counts.trials().get(i)));
                labels.get(FARM).add(line.farm());
                labels.get(SLOPE).add(List.of(line.farm(), level));
                labels.get(TRIAL).add(brought.trial());
                labels.get(OTHERS).add(List.of(brought.trial(), others));
                labels.get(PLACE).add(List.of(brought.trial(), counts.place().get(i)));
                labels.get(TRAY).add(List.of(brought.trial(), -1, i));
            }
        }
    }

    private int distinct(String grouping) {
        return new HashSet<>(labels.get(grouping)).size();
    }

    private Map<String, Pooled.OneStage> fitted() {
        var columns = new ArrayList<ModelMatrix.Column>();
        columns.add(new ModelMatrix.Column(
                "(base)", rowLevels.stream().mapToDouble(l -> 1).toArray()));
        for (String level : levels.subList(1, levels.size())) {
            columns.add(new ModelMatrix.Column(
                    level,
                    rowLevels.stream().mapToDouble(l -> l.equals(level) ? 1 : 0).toArray()));
        }
        var matrix = ModelMatrix.of(columns);
        var groupings = groupings();
        var fit = MixedLogisticFit.of(matrix, counts, List.copyOf(groupings.values()));
        var deviations = new LinkedHashMap<String, Double>();
        int number = 0;
        for (String name : groupings.keySet()) {
            double deviation = fit.standardDeviations()[number++];
            deviations.put(name, name.equals(SLOPE) ? Math.sqrt(2) * deviation : deviation);
        }
        var by = new LinkedHashMap<String, Pooled.OneStage>();
        for (int j = 0; j < matrix.names().size(); j++) {
            if (j > 0) {
                by.put(matrix.names().get(j), of(fit, j, deviations));
            }
        }
        return by;
    }

    private Pooled.OneStage of(MixedLogisticFit fit, int column, Map<String, Double> deviations) {
        double estimate = fit.estimates().coefficient(column);
        double error = fit.estimates().standardError(column);
        int freedom = distinct(FARM) - 1;
        double half = Tail.tQuantile(1 - alpha / 2, freedom) * error;
        boolean sure = fit.settled() && Double.isFinite(error) && error > 0;
        return new Pooled.OneStage(
                estimate,
                sure ? error : null,
                sure ? estimate - half : null,
                sure ? estimate + half : null,
                sure ? Tail.tTwoSided(estimate / error, freedom) : null,
                counts.size(),
                distinct(FARM),
                deviations,
                fit.logLikelihood(),
                sure ? null : "The search for the likeliest model didn't come to rest.");
    }

    /** Those that are told apart from one another and from single trays. */
    private Map<String, Grouping> groupings() {
        var kept = new LinkedHashMap<String, Grouping>();
        labels.forEach((name, of) -> {
            var grouping = Grouping.by(of);
            boolean repeated = name.equals(TRAY) || grouping.groups() < grouping.size();
            if (repeated && grouping.groups() > 1 && kept.values().stream().noneMatch(k -> same(k, grouping))) {
                kept.put(name, grouping);
            }
        });
        return kept;
    }

    private static boolean same(Grouping one, Grouping other) {
        return one.groups() == other.groups() && one.finerThan(other);
    }
}
