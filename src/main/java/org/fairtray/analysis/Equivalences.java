package org.fairtray.analysis;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.findings.AsGoodAs;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Words;
import org.fairtray.statistics.comparisons.Equivalence;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * Whether levels are as good as the control: two one-sided tests of each difference of rates against the one that would
 * matter, in which no spread counts as smaller than seeds alone would make it. A higher rate is taken as better.
 */
final class Equivalences {
    private static final Treatment ANY = new Treatment(Map.of());

    private final Structure structure;
    private final Effects effects;
    private final double margin;
    private final double alpha;

    private Equivalences(Structure structure, Effects effects, double margin) {
        this.structure = structure;
        this.effects = effects;
        this.margin = margin;
        this.alpha = structure.trial().choices().alpha();
    }

    /**
     * Holds each difference of rates against what is worthwhile.
     *
     * @return empty where the plan doesn't say what is worthwhile, or alpha is 0.5, of which no such test can be made
     */
    static List<AsGoodAs> of(Structure structure, Effects effects, List<Effect> againstControl) {
        var margin = structure.trial().expectations().worthwhile();
        if (margin.isEmpty()
                || !(margin.getAsDouble() > 0)
                || structure.trial().choices().alpha() >= 0.5) {
            return List.of();
        }
        var equivalences = new Equivalences(structure, effects, margin.getAsDouble());
        return againstControl.stream().map(equivalences::of).toList();
    }

    private AsGoodAs of(Effect effect) {
        var factor = structure.trial().factor(effect.factor());
        var test = effects.measured(factor, effect.level(), effect.against(), ANY)
                .filter(Measured::sure)
                .flatMap(m -> Equivalence.of(
                        m.comparison().difference(),
                        Math.sqrt(m.spread().verdictVariance()),
                        m.degreesOfFreedom(),
                        margin,
                        alpha));
        return new AsGoodAs(
                effect.factor(),
                effect.level(),
                effect.against(),
                margin,
                test.map(Equivalence::pNotBelow).orElse(null),
                test.map(Equivalence::pNotAbove).orElse(null),
                test.map(e -> Math.max(-1, e.interval().low())).orElse(null),
                test.map(e -> Math.min(1, e.interval().high())).orElse(null),
                test.filter(Equivalence::notBelow).isPresent(),
                test.filter(Equivalence::equivalent).isPresent(),
                sentence(factor, effect, test));
    }

    private String sentence(Factor factor, Effect effect, Optional<Equivalence> test) {
        String own = level(factor, effect.level());
        String other = level(factor, effect.against());
        String points = Words.points(margin);
        if (test.isEmpty()) {
            return "Whether " + own + " is as good as " + other + " can't be told: nothing is left to hold a difference"
                    + " against.";
        }
        var found = test.get();
        if (found.equivalent()) {
            return own + " is as good as " + other + ", and no better: a difference of " + points
                    + " or more, either way, is ruled out (" + Words.p(found.p()) + ").";
        }
        if (found.notBelow()) {
            return own + " is as good as " + other + ": worse by " + points + " or more is ruled out ("
                    + Words.p(found.pNotBelow()) + ").";
        }
        return own + " can't be called as good as " + other + ": worse by " + points + " or more is "
                + (found.interval().high() < -margin
                        ? "what was found."
                        : "not ruled out (" + Words.p(found.pNotBelow()) + ").");
    }

    private static String level(Factor factor, String level) {
        return factor.name() + " " + factor.describe(level);
    }
}
