package org.fairtray.analysis;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.Cells;
import org.fairtray.analysis.models.LogisticPart;
import org.fairtray.analysis.models.Model;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.SeedVariance;
import org.fairtray.analysis.models.Tests;
import org.fairtray.design.DesignName;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.linear.LinearFit;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Scale;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** The analysis of one outcome. */
final class OutcomeAnalysis {
    private final Trial trial;
    private final Outcome outcome;
    private final OutcomeData data;
    private final Structure structure;
    private final AnovaPart anova;

    private OutcomeAnalysis(Structure structure, Outcome outcome, OutcomeData data) {
        this.trial = structure.trial();
        this.outcome = outcome;
        this.data = data;
        this.structure = structure;
        this.anova = AnovaPart.of(structure, data.on(trial.choices().scale()));
    }

    /**
     * @param whole the structure of all trays of the layout, which serves where every one of them was read
     * @param progress of the trial, the same for all its counts
     */
    static Findings.OutcomeFindings of(
            Structure whole, Tallies tallies, List<Findings.Progress> progress, Outcome outcome) {
        var data = OutcomeData.of(outcome, whole.trays(), tallies);
        if (data.trays().isEmpty()) {
            return nothingRead(outcome, data);
        }
        var structure = data.leftOut().isEmpty() ? whole : Structure.of(whole.trial(), data.trays());
        var analysis = new OutcomeAnalysis(structure, outcome, data);
        return data.isCount() ? analysis.ofCount(progress) : analysis.ofMeasure();
    }

    private static Findings.OutcomeFindings nothingRead(Outcome outcome, OutcomeData data) {
        return new Findings.OutcomeFindings(
                outcome.name(),
                outcome.match(c -> "count", m -> "measure"),
                outcome.match(c -> c.of(), m -> null),
                outcome.day(),
                0,
                data.leftOut().stream().map(Findings.LeftOut::tray).toList(),
                data.leftOut(),
                null,
                List.of(),
                null,
                null,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
    }

    private Findings.OutcomeFindings ofCount(List<Findings.Progress> progress) {
        var logistic = LogisticPart.of(structure, data.counts(), trial.choices().alpha());
        if (logistic.isFinite()) {
            var tests = Tests.byDeviance(structure, logistic);
            var effects =
                    new Effects(structure, new Predictor(logistic.model(), logistic.estimates(), true), tests, true);
            return findings(
                    logistic,
                    tests.findings(),
                    new Verdicts(structure, outcome.name(), true, tests, effects),
                    Summaries.ofCounts(
                            trial, data, trays -> logistic.dispersionOf(trays).orElse(1.0)),
                    TrayValues.ofRates(trial, data, logistic),
                    progress);
        }
        return separated(logistic, progress);
    }

    /** Where odds are infinite: tests on the plan's scale, differences of rates by least squares. */
    private Findings.OutcomeFindings separated(LogisticPart logistic, List<Findings.Progress> progress) {
        var tests = Tests.byVariance(
                structure, anova, SeedVariance.on(trial.choices().scale(), data.counts()));
        var onRates = AnovaPart.of(structure, data.raw());
        var rateTests = Tests.byVariance(structure, onRates, SeedVariance.on(Scale.PROPORTION, data.counts()));
        var model = logistic.model();
        var fit = LinearFit.of(model.matrix(), data.raw());
        var effects = new Effects(structure, new Predictor(model, fit.estimates(), false), rateTests, true);
        double overall = Summaries.dispersion(trial, data);
        return findings(
                logistic,
                tests.findings(),
                new Verdicts(structure, outcome.name(), true, tests, effects),
                Summaries.ofCounts(trial, data, trays -> overall),
                TrayValues.ofValues(trial, data, model, fit),
                progress);
    }

    private Findings.OutcomeFindings ofMeasure() {
        var tests = Tests.byVariance(structure, anova, 0);
        var model = Model.of(Cells.of(structure), structure.terms());
        var fit = LinearFit.of(model.matrix(), data.raw());
        var effects = new Effects(structure, new Predictor(model, fit.estimates(), false), tests, false);
        return findings(
                null,
                tests.findings(),
                new Verdicts(structure, outcome.name(), false, tests, effects),
                Summaries.ofMeasures(trial, data),
                TrayValues.ofValues(trial, data, model, fit),
                List.of());
    }

    private Findings.OutcomeFindings findings(
            LogisticPart logistic,
            List<Findings.TermTest> tests,
            Verdicts verdicts,
            List<? extends Findings.Summary> summary,
            List<Findings.TrayValue> trayValues,
            List<Findings.Progress> progress) {
        var scale = data.isCount() ? trial.choices().scale().label() : "raw";
        var variance = anova.findings(scale);
        var odds = logistic == null ? null : logistic.findings();
        return new Findings.OutcomeFindings(
                outcome.name(),
                outcome.match(c -> "count", m -> "measure"),
                outcome.match(c -> c.of(), m -> null),
                outcome.day(),
                data.trays().size(),
                data.leftOut().stream().map(Findings.LeftOut::tray).toList(),
                data.leftOut(),
                design(),
                summary,
                variance,
                odds,
                Rerandomisations.of(structure, data.on(trial.choices().scale()), Rerandomisations.SEED),
                tests,
                verdicts.effects(),
                verdicts.interactions(),
                verdicts.findings(Faults.of(structure)),
                trayValues,
                progress,
                Methods.of(trial, structure, variance, odds));
    }

    private Findings.Design design() {
        var name = DesignName.of(structure);
        var units = IntStream.range(0, structure.strata().size())
                .mapToObj(s -> structure.strata().grouping(s).groups())
                .toList();
        return new Findings.Design(name.name(), name.treatments(), structure.strataNames(), name.sentence(), units);
    }

    /** The place of a tray as numbers by level. */
    static Map<String, Integer> place(Trial trial, Tray tray) {
        var place = new LinkedHashMap<String, Integer>();
        var names = trial.place().names();
        for (int i = 0; i < names.size(); i++) {
            place.put(names.get(i), tray.stand().at().get(i));
        }
        return place;
    }
}
