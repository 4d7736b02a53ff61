package org.fairtray.pooling.contribution;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.audit.Audit;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Area;
import org.fairtray.trial.Seal;

/**
 * What one trial brings to an analysis of many: its estimates, its counts tray by tray, what held for all of its trays, and
 * what its audit found. Names, units and levels are the trial's own; making one of many growers' words is for {@code
 * pooling}.
 *
 * @param title the trial's own
 * @param protocol what tells that trials have the same plan: SHA-256 of plan.yaml, hexadecimal
 * @param layout what tells that it is the same trial: SHA-256 of layout.csv, hexadecimal
 * @param drawn the day of the draw, ISO 8601, as the seal says it
 * @param trays that the layout has
 * @param conditions what is the same for all of its trays, by name; the crop is among them
 * @param tray the size of a tray, where the plan says it
 * @param worthwhile the smallest difference of rates worth acting on, where the plan says it
 * @param outcomes one for each outcome of the plan of which a tray was read
 * @param faults what the audit found
 */
public record Contribution(
        String title,
        String protocol,
        String layout,
        Optional<String> drawn,
        int trays,
        Map<String, String> conditions,
        Optional<Area> tray,
        OptionalDouble worthwhile,
        List<OutcomePart> outcomes,
        List<Finding> faults) {

    /** The condition that holds what was sown. */
    public static final String CROP = "crop";

    /**
     * A finding of the audit.
     *
     * @param kind its word, such as confounded
     * @param factors those it touches; none where it touches all
     */
    public record Finding(String kind, List<String> factors, String sentence) {
        public Finding {
            factors = List.copyOf(factors);
        }
    }

    /**
     * One outcome.
     *
     * @param of what a count is out of, sown or germinated; empty for a measure
     * @param factors what each factor of the plan did
     * @param counts tray by tray; none for a measure
     */
    public record OutcomePart(
            String name, Optional<String> of, int day, List<FactorPart> factors, Optional<TrayCounts> counts) {
        public OutcomePart {
            factors = List.copyOf(factors);
        }
    }

    /**
     * What a factor did, level by level against its control, averaged over the other factors as the trial's own report has
     * it: log-odds for a count, the measure's unit else.
     *
     * @param levels that were sown, the control first where it was
     * @param values rate or mean of each level
     * @param estimates of every level but the first, less the first
     * @param covariance of these estimates, never less than seeds alone would give
     * @param missing why there are no estimates; empty where there are
     */
    public record FactorPart(
            String name,
            Optional<String> unit,
            List<String> levels,
            List<Double> values,
            List<Double> estimates,
            List<List<Double>> covariance,
            Optional<String> missing) {
        public FactorPart {
            levels = List.copyOf(levels);
            values = List.copyOf(values);
            estimates = List.copyOf(estimates);
            covariance = List.copyOf(covariance);
        }
    }

    /**
     * Counts tray by tray.
     *
     * @param treatments the different ones, level by factor
     * @param treatment the number of each tray's treatment
     * @param place the number of the unit that each tray stands in, of the place level outside it
     * @param successes of each tray
     * @param trials of each tray
     */
    public record TrayCounts(
            List<Map<String, String>> treatments,
            List<Integer> treatment,
            List<Integer> place,
            List<Long> successes,
            List<Long> trials) {
        public TrayCounts {
            treatments = List.copyOf(treatments);
            treatment = List.copyOf(treatment);
            place = List.copyOf(place);
            successes = List.copyOf(successes);
            trials = List.copyOf(trials);
        }
    }

    public Contribution {
        conditions = Collections.unmodifiableMap(new LinkedHashMap<>(conditions));
        outcomes = List.copyOf(outcomes);
        faults = List.copyOf(faults);
    }

    /**
     * What a trial brings.
     *
     * @param files with a layout
     * @throws IllegalArgumentException if there is no layout
     */
    public static Contribution of(TrialFiles files) {
        var trial = files.trial();
        var layout = files.layout()
                .orElseThrow(() -> new IllegalArgumentException("a trial without a layout: expected one"));
        var conditions = new LinkedHashMap<String, String>();
        trial.crop().ifPresent(c -> conditions.put(CROP, c.name()));
        conditions.putAll(trial.conditions());
        var audit = Audit.of(trial, layout, files.sealState(), files.readings());
        var outcomes = new ArrayList<OutcomePart>();
        var parts = new OutcomeParts(trial, layout, files.readings());
        trial.outcomes().forEach(o -> parts.of(o).ifPresent(outcomes::add));
        return new Contribution(
                trial.title(),
                files.planSha256(),
                files.layoutSha256().orElseThrow(),
                files.seal().flatMap(Seal::day),
                layout.trays().size(),
                conditions,
                trial.counting().tray(),
                trial.expectations().worthwhile(),
                outcomes,
                audit.findings().stream()
                        .map(f -> new Finding(f.kind(), f.factors(), f.sentence()))
                        .toList());
    }
}
