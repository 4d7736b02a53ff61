package org.fairtray.analysis;

import java.util.List;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.CountFits;
import org.fairtray.analysis.models.FitChoice;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.Tests;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.findings.AsGoodAs;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.Count;
import org.fairtray.trial.Outcome;

/** What is concluded of one outcome: the tests of its terms, the differences between levels, the verdicts. */
public final class Inference {
    private final Structure structure;
    private final Tests tests;
    private final Effects effects;
    private final Verdicts verdicts;
    private final Trends trends;
    private final boolean rates;

    private Inference(Structure structure, Outcome outcome, Yardstick yardstick, Predictor predictor) {
        boolean rates = outcome.match(c -> true, m -> false);
        this.structure = structure;
        this.rates = rates;
        this.tests = Tests.by(yardstick, structure);
        this.effects = new Effects(structure, predictor, yardstick, rates);
        this.verdicts = new Verdicts(structure, outcome.name(), rates, tests, effects);
        this.trends = new Trends(structure, predictor, yardstick, rates);
    }

    static Inference of(Structure structure, Outcome outcome, Yardstick yardstick, Predictor predictor) {
        return new Inference(structure, outcome, yardstick, predictor);
    }

    /** The conclusions from some counts alone, without all that a report shows beside them. */
    public static Inference ofCounts(Structure structure, Outcome outcome, List<Count> counts) {
        var choice = FitChoice.of(
                CountFits.of(structure, counts),
                AnovaPart.ofCounts(structure, counts),
                structure.trial().choices().alpha());
        return of(structure, outcome, choice.yardstick(), choice.predictor());
    }

    Tests tests() {
        return tests;
    }

    Effects effects() {
        return effects;
    }

    Trends trends() {
        return trends;
    }

    /** Every level against the difference that would matter; empty for a measure, which is said in no rate. */
    List<AsGoodAs> equivalences() {
        return rates ? Equivalences.of(structure, effects, differences()) : List.of();
    }

    /** The test of each term. */
    public List<Findings.TermTest> termTests() {
        return tests.findings();
    }

    /** Every level against its control. */
    public List<Effect> differences() {
        return verdicts.effects();
    }

    /** Whether the verdict on a factor is "changed", without the sentence and what it says of others. */
    public boolean isChanged(String factor) {
        return verdicts.isChanged(structure.trial().factor(factor));
    }

    List<Findings.InteractionNote> interactions() {
        return verdicts.interactions();
    }

    /** One verdict for each factor. */
    public List<Findings.Verdict> verdicts() {
        return verdicts.findings(Faults.of(structure));
    }
}
