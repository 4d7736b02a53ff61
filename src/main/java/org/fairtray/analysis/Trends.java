package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.analysis.models.LevelAverages;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.analysis.models.Yardstick.Spread;
import org.fairtray.design.Structure;
import org.fairtray.findings.Trend;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.Vectors;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * How an outcome follows the levels of numeric factors: orthogonal polynomials of the levels' averages, on the scale of
 * rates or in the measure's unit, each held against the spread of the units it lies between.
 *
 * <p>Sources: Emerson (1968), Biometrics 24, 695-701 (polynomials for levels spaced unevenly); Cochran and Cox (1957),
 * Experimental Designs, 2nd ed., section 3.42 (components of a term, each tested against the term's own error).
 */
final class Trends {
    private static final Treatment ANY = new Treatment(Map.of());

    /** A standard error this small beside the averages themselves is their rounding. */
    private static final double ROUNDING = 1e-12;

    private final Structure structure;
    private final Predictor predictor;
    private final Yardstick yardstick;
    private final boolean rates;
    private final double alpha;

    /** The components of one factor, lowest degree first. */
    private record Found(NumericLevels levels, LevelAverages averages, List<TrendComponent> components) {}

    /** @param rates whether the outcome is a rate; else a measure */
    Trends(Structure structure, Predictor predictor, Yardstick yardstick, boolean rates) {
        this.structure = structure;
        this.predictor = predictor;
        this.yardstick = yardstick;
        this.rates = rates;
        this.alpha = structure.trial().choices().alpha();
    }

    /** Every component of every numeric factor whose levels can be told apart. */
    List<Trend> components() {
        return structure.trial().factors().stream()
                .flatMap(f -> found(f).stream())
                .flatMap(f -> trends(f).stream())
                .toList();
    }

    /** Where numeric factors of three levels or more do best: those whose curve is shown to bend down. */
    List<Trend.Best> best() {
        return structure.trial().factors().stream()
                .flatMap(f -> found(f).stream())
                .filter(f -> f.components().size() > 1
                        && f.components().get(1).contrast().value() < 0
                        && f.components().get(1).heldP().filter(p -> p <= alpha).isPresent())
                .flatMap(f -> new TurningPoint(f.levels(), f.averages(), yardstick, alpha).best().stream())
                .toList();
    }

    private Optional<Found> found(Factor factor) {
        return NumericLevels.of(structure, factor)
                .flatMap(l -> LevelAverages.of(structure, predictor, factor, l.names(), ANY)
                        .map(a -> new Found(l, a, components(l, a))));
    }

    private List<TrendComponent> components(NumericLevels levels, LevelAverages averages) {
        var polynomials = levels.polynomials();
        double size = IntStream.range(0, levels.names().size())
                .mapToDouble(i -> Math.abs(averages.value(i)))
                .max()
                .orElse(0);
        return IntStream.rangeClosed(1, polynomials.highest())
                .mapToObj(degree -> {
                    var contrast = averages.contrast(polynomials.contrast(degree));
                    var spread = yardstick
                            .spread(contrast.slope(), contrast.linear())
                            .filter(s -> Math.sqrt(s.variance()) > ROUNDING * size);
                    return new TrendComponent(degree, contrast, spread, levels.half());
                })
                .toList();
    }

    private List<Trend> trends(Found found) {
        var sentences = new TrendSentences(found.levels(), rates, alpha);
        var trends = new ArrayList<Trend>();
        for (var component : found.components()) {
            trends.add(new Trend(
                    found.levels().factor().name(),
                    component.name(),
                    component.estimate(),
                    component.end(-1, alpha),
                    component.end(1, alpha),
                    1,
                    component.p(),
                    sentences.of(component)));
        }
        if (found.components().size() > 2) {
            trends.add(lackOfFit(found, sentences));
        }
        return trends;
    }

    private Trend lackOfFit(Found found, TrendSentences sentences) {
        var rest = found.components().subList(2, found.components().size());
        Optional<Double> p = together(rest, false);
        return new Trend(
                found.levels().factor().name(),
                "lack of fit",
                null,
                null,
                null,
                rest.size(),
                p.orElse(null),
                sentences.lackOfFit(p, together(rest, true)));
    }

    /**
     * Whether all of some components are 0, by F = q'V^-1 q / k for k components q with covariance V, on the fewest degrees
     * of freedom that any of them has. In a balanced layout, where they are independent, this is the F of their summed
     * squares in the analysis of variance.
     *
     * @param held whether no spread counts as smaller than seeds alone would make it
     * @return p; empty where one of them has no spread
     */
    private Optional<Double> together(List<TrendComponent> rest, boolean held) {
        if (rest.stream().anyMatch(c -> c.spread().isEmpty())) {
            return Optional.empty();
        }
        double fewest = rest.stream()
                .mapToDouble(c -> c.spread().get().degreesOfFreedom())
                .min()
                .orElseThrow();
        double[] ratios = rest.stream()
                .mapToDouble(c -> c.contrast().value()
                        / Math.sqrt(held ? verdictVariance(c) : c.spread().get().variance()))
                .toArray();
        return Cholesky.of(correlations(rest))
                .map(l -> Tail.f(Vectors.squaredLength(l.forward(ratios)) / rest.size(), rest.size(), fewest));
    }

    private static double verdictVariance(TrendComponent component) {
        return component.spread().map(Spread::verdictVariance).orElseThrow();
    }

    private double[][] correlations(List<TrendComponent> components) {
        var correlations = new double[components.size()][components.size()];
        for (int i = 0; i < correlations.length; i++) {
            for (int j = 0; j < correlations.length; j++) {
                correlations[i][j] = i == j
                        ? 1
                        : yardstick.correlation(
                                components.get(i).contrast().slope(),
                                components.get(j).contrast().slope());
            }
        }
        return correlations;
    }
}
