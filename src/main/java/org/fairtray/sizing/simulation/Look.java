package org.fairtray.sizing.simulation;

import java.util.List;
import org.fairtray.analysis.Inference;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.MixedModels;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.MixedRatio;
import org.fairtray.trial.Outcome;

/** Looks for one term in the counts of a trial. May be a workspace, for one thread. */
interface Look {

    /** Whether the term is found in one count for each tray. */
    boolean finds(List<Count> counts);

    /**
     * The look of a judge.
     *
     * @param term one that some stratum can test
     */
    static Look of(Judge judge, Structure structure, MixedModels models, Term term) {
        double alpha = structure.trial().choices().alpha();
        return switch (judge) {
            case ANOVA -> byVariance(structure, term, alpha);
            case LOGISTIC ->
                models.pair(term).map(pair -> byLikelihood(pair, models, alpha)).orElse(counts -> false);
            case VERDICT -> byVerdict(structure, term, alpha);
        };
    }

    private static Look byVariance(Structure structure, Term term, double alpha) {
        int stratum = structure.testedIn(term).orElseThrow();
        int df = structure.parts(term).stream()
                .filter(p -> p.stratum() == stratum)
                .findFirst()
                .orElseThrow()
                .df();
        int rest = structure.decomposition().residualDf(stratum);
        return counts -> AnovaPart.ofCounts(structure, counts)
                .ratio(term, stratum)
                .filter(f -> Tail.f(f, df, rest) <= alpha)
                .isPresent();
    }

    private static Look byLikelihood(MixedModels.Pair pair, MixedModels models, double alpha) {
        var ratio = MixedRatio.of(pair.smaller(), pair.larger(), models.groupings());
        return counts -> Tail.chiSquared(ratio.of(counts).value(), pair.df()) <= alpha;
    }

    private static Look byVerdict(Structure structure, Term term, double alpha) {
        var days = structure.trial().counting().days();
        var outcome = new Outcome.Count("counted", "sown", days.get(days.size() - 1));
        return counts -> {
            var inference = Inference.ofCounts(structure, outcome, counts);
            return term.isMain()
                    ? inference.isChanged(term.name())
                    : inference.termTests().stream()
                            .anyMatch(t -> t.term().equals(term.name()) && t.p() != null && t.p() <= alpha);
        };
    }
}
