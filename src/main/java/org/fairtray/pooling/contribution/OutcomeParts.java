package org.fairtray.pooling.contribution;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.Comparison;
import org.fairtray.analysis.models.CountFits;
import org.fairtray.analysis.models.FitChoice;
import org.fairtray.analysis.models.MeasureFits;
import org.fairtray.analysis.models.Predictor;
import org.fairtray.analysis.models.Yardstick;
import org.fairtray.design.Structure;
import org.fairtray.pooling.contribution.Contribution.FactorPart;
import org.fairtray.pooling.contribution.Contribution.OutcomePart;
import org.fairtray.pooling.contribution.Contribution.TrayCounts;
import org.fairtray.statistics.Count;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * The parts of a contribution, outcome by outcome: the same fit that the trial's own report rests on, asked for differences
 * of log-odds.
 */
final class OutcomeParts {
    private static final Treatment ANY = new Treatment(Map.of());

    private final Trial trial;
    private final Layout layout;
    private final Tallies tallies;

    /** What an outcome's differences are taken from. */
    private record Fitted(Structure structure, Predictor predictor, Yardstick yardstick) {}

    OutcomeParts(Trial trial, Layout layout, List<Reading> readings) {
        this.trial = trial;
        this.layout = layout;
        this.tallies = Tallies.of(trial, readings);
    }

    /** Empty where no tray was read. */
    Optional<OutcomePart> of(Outcome outcome) {
        var data = OutcomeData.of(outcome, layout.trays(), tallies);
        if (data.trays().isEmpty()) {
            return Optional.empty();
        }
        var structure = Structure.of(trial, data.trays());
        var fitted = fitted(structure, data);
        return Optional.of(new OutcomePart(
                outcome.name(),
                outcome.match(c -> Optional.of(c.of()), m -> Optional.empty()),
                outcome.day(),
                trial.factors().stream().map(f -> factor(f, fitted)).toList(),
                data.isCount() ? Optional.of(counts(data.trays(), data.counts())) : Optional.empty()));
    }

    private Fitted fitted(Structure structure, OutcomeData data) {
        var anova = AnovaPart.of(structure, data.on(trial.choices().scale()));
        if (data.isCount()) {
            var choice = FitChoice.of(
                    CountFits.of(structure, data.counts()),
                    anova,
                    trial.choices().alpha());
            return new Fitted(structure, choice.predictor(), choice.yardstick());
        }
        var fits = MeasureFits.of(structure, data.raw(), anova, 0);
        return new Fitted(structure, fits.predictor(), fits.yardstick());
    }

    private FactorPart factor(Factor factor, Fitted fitted) {
        var sown = fitted.structure.sownLevels(factor);
        if (sown.size() < 2) {
            return without(factor, sown, "fewer than two of its levels were read");
        }
        var compared = new ArrayList<Comparison>();
        for (String level : sown.subList(1, sown.size())) {
            var one = Comparison.of(fitted.structure, fitted.predictor, factor, level, sown.get(0), ANY);
            if (one.isEmpty()) {
                return without(factor, sown, "nothing in the layout tells its levels apart");
            }
            compared.add(one.get());
        }
        return part(factor, sown, compared, fitted.yardstick);
    }

    private static FactorPart part(Factor factor, List<String> sown, List<Comparison> compared, Yardstick yardstick) {
        var deviations = new ArrayList<Double>();
        for (var one : compared) {
            var spread = yardstick.oddsSpread(one.linear());
            if (spread.isEmpty()) {
                return without(factor, sown, "nothing is repeated that its levels could be held against");
            }
            deviations.add(Math.sqrt(spread.get().verdictVariance()));
        }
        var covariance = new ArrayList<List<Double>>();
        for (int i = 0; i < compared.size(); i++) {
            var row = new ArrayList<Double>();
            for (int j = 0; j < compared.size(); j++) {
                double alike = i == j
                        ? 1
                        : yardstick.correlation(
                                compared.get(i).linear(), compared.get(j).linear());
                row.add(alike * deviations.get(i) * deviations.get(j));
            }
            covariance.add(List.copyOf(row));
        }
        var values = new ArrayList<Double>();
        values.add(compared.get(0).against());
        compared.forEach(c -> values.add(c.value()));
        return new FactorPart(
                factor.name(),
                factor.unit(),
                sown,
                values,
                compared.stream().map(Comparison::logOdds).toList(),
                covariance,
                Optional.empty());
    }

    private static FactorPart without(Factor factor, List<String> sown, String why) {
        return new FactorPart(factor.name(), factor.unit(), sown, List.of(), List.of(), List.of(), Optional.of(why));
    }

    private TrayCounts counts(List<Tray> trays, List<Count> counts) {
        var treatments = List.copyOf(new LinkedHashSet<>(
                trays.stream().map(t -> t.treatment().levels()).toList()));
        var outer = trays.stream().map(this::outside).toList();
        var units = List.copyOf(new LinkedHashSet<>(outer));
        return new TrayCounts(
                treatments,
                trays.stream()
                        .map(t -> treatments.indexOf(t.treatment().levels()))
                        .toList(),
                outer.stream().map(units::indexOf).toList(),
                counts.stream().map(Count::successes).toList(),
                counts.stream().map(Count::trials).toList());
    }

    /** The numbers of a tray's place without the last, which is its own. */
    private List<Integer> outside(Tray tray) {
        var at = tray.stand().at();
        return at.subList(0, at.size() - 1);
    }
}
