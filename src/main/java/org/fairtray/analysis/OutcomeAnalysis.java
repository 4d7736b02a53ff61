package org.fairtray.analysis;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SortedSet;
import java.util.stream.IntStream;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.CountFits;
import org.fairtray.analysis.models.FitChoice;
import org.fairtray.analysis.models.LogisticFindings;
import org.fairtray.analysis.models.MeasureFits;
import org.fairtray.analysis.soundness.Soundness;
import org.fairtray.design.DesignName;
import org.fairtray.design.Restrictions;
import org.fairtray.design.Structure;
import org.fairtray.design.Textbook;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** The analysis of one outcome. */
final class OutcomeAnalysis {
    private final Trial trial;
    private final Outcome outcome;
    private final OutcomeData data;
    private final Structure structure;
    private final AnovaPart anova;
    private final AnalysisOptions options;

    private OutcomeAnalysis(Structure structure, Outcome outcome, OutcomeData data, AnalysisOptions options) {
        this.options = options;
        this.trial = structure.trial();
        this.outcome = outcome;
        this.data = data;
        this.structure = structure;
        this.anova = AnovaPart.of(structure, data.on(trial.choices().scale()));
    }

    /**
     * @param whole the structure of all trays of the layout, which serves where every one of them was read
     * @param progress of the trial, the same for all its counts
     * @param options what was asked for beside the plan
     */
    static Findings.OutcomeFindings of(
            Structure whole,
            Tallies tallies,
            List<Findings.Progress> progress,
            Outcome outcome,
            AnalysisOptions options) {
        var data = OutcomeData.of(outcome, whole.trays(), tallies);
        if (data.trays().isEmpty()) {
            return nothingRead(outcome, data);
        }
        var structure = data.leftOut().isEmpty() ? whole : Structure.of(whole.trial(), data.trays());
        var analysis = new OutcomeAnalysis(structure, outcome, data, options);
        var counters = tallies.counters(outcome);
        return outcome.match(c -> analysis.ofCount(c, tallies, progress, counters), m -> analysis.ofMeasure(counters));
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
                List.of(),
                List.of(),
                null,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
    }

    private Findings.OutcomeFindings ofCount(
            Outcome.Count count,
            Tallies tallies,
            List<Findings.Progress> progress,
            Map<String, SortedSet<String>> counters) {
        double alpha = trial.choices().alpha();
        var fits = CountFits.of(structure, data.counts());
        var choice = FitChoice.of(fits, anova, alpha);
        return findings(
                Inference.of(structure, outcome, choice.yardstick(), choice.predictor()),
                LogisticFindings.of(fits, alpha, choice, options.bootstrap(outcome)),
                Summaries.ofCounts(
                        trial, data, trays -> fits.dispersionOf(trays).orElse(1.0)),
                Soundness.ofCounts(structure, data, rates(fits), counters),
                TrayValues.ofRates(trial, data, fits),
                progress,
                SpeedAnalysis.of(structure, count, tallies.courses(count)));
    }

    private Findings.OutcomeFindings ofMeasure(Map<String, SortedSet<String>> counters) {
        var fits = MeasureFits.of(structure, data.raw(), anova, 0);
        return findings(
                Inference.of(structure, outcome, fits.yardstick(), fits.predictor()),
                null,
                Summaries.ofMeasures(trial, data),
                Soundness.ofMeasures(structure, data, counters),
                TrayValues.ofValues(trial, data, fits),
                List.of(),
                Optional.empty());
    }

    private double[] rates(CountFits fits) {
        return IntStream.range(0, data.trays().size())
                .mapToDouble(fits::fittedRate)
                .toArray();
    }

    private Findings.OutcomeFindings findings(
            Inference inference,
            Logistic logistic,
            List<? extends Findings.Summary> summary,
            List<DataCheck> soundness,
            List<Findings.TrayValue> trayValues,
            List<Findings.Progress> progress,
            Optional<SpeedAnalysis> speed) {
        var scale = data.isCount() ? trial.choices().scale().label() : "raw";
        var variance = anova.findings(scale);
        var chance = Rerandomisations.of(
                structure,
                anova,
                data.on(trial.choices().scale()),
                Rerandomisations.SEED,
                options.arrangements(outcome));
        var trends = inference.trends().components();
        var equivalences = inference.equivalences();
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
                logistic,
                chance,
                inference.tests().findings(),
                inference.differences(),
                inference.effects().pairs(),
                inference.interactions(),
                trends,
                inference.trends().best(),
                equivalences,
                Costing.of(trial, outcome, summary),
                speed.map(SpeedAnalysis::findings).orElse(null),
                inference.verdicts().stream()
                        .map(v -> speed.map(s -> s.both(v)).orElse(v))
                        .toList(),
                soundness,
                trayValues,
                progress,
                new Methods(structure, variance, logistic, chance)
                        .sentences(!trends.isEmpty(), !equivalences.isEmpty(), options.bootstrapDraws()));
    }

    private Findings.Design design() {
        var name = DesignName.of(structure);
        var units = IntStream.range(0, structure.strata().size())
                .mapToObj(s -> structure.strata().grouping(s).groups())
                .toList();
        var trial = structure.trial();
        return new Findings.Design(
                name.name(),
                name.treatments(),
                structure.strataNames(),
                name.sentence(),
                units,
                Textbook.source(name.name(), trial.factors().size()),
                Textbook.place(trial.place()),
                Restrictions.kept(trial, structure.trays()).stream()
                        .map(Restriction::words)
                        .toList());
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
