package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.files.PlanValue.Range;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Place;
import org.fairtray.trial.Scale;

/** Reads what is chosen, expected and known before sowing: the analysis, the expectations, costs and the crop. */
final class ExpectationReader {
    static final List<String> ANALYSIS_KEYS = List.of("alpha", "interactions", "anova_scale");
    static final List<String> EXPECT_KEYS =
            List.of("control_rate", "worthwhile", "tray_correlation", "place_sd", "power");
    static final List<String> COST_KEYS =
            List.of("currency", "tray", "seed_per_g", "labour_per_hour", "minutes_per_frame");
    static final List<String> CROP_KEYS = List.of("name", "seed_lot", "thousand_seed_weight_g", "seeds_per_unit");
    private static final int MOST_FACTORS = 20;
    private static final int LARGEST_CLUSTER = 1000;

    private ExpectationReader() {}

    static AnalysisChoices analysis(PlanValue value) {
        var usual = AnalysisChoices.USUAL;
        return value.keys(ANALYSIS_KEYS)
                .map(keys -> new AnalysisChoices(
                        number(keys, "alpha", Range.ERROR_RATE).orElse(usual.alpha()),
                        whole(keys, "interactions", MOST_FACTORS).orElse(usual.interactions()),
                        keys.optional("anova_scale")
                                .flatMap(ExpectationReader::scale)
                                .orElse(usual.scale())))
                .orElse(usual);
    }

    private static Optional<Scale> scale(PlanValue value) {
        var scales = List.of(Scale.values());
        return value.oneOf("scale", scales.stream().map(Scale::label).toList())
                .flatMap(label ->
                        scales.stream().filter(s -> s.label().equals(label)).findFirst());
    }

    /** @param places the names of the place levels */
    static Expectations expect(PlanValue value, List<String> places) {
        return value.keys(EXPECT_KEYS)
                .map(keys -> new Expectations(
                        number(keys, "control_rate", Range.PROPORTION),
                        number(keys, "worthwhile", Range.INNER_PROPORTION),
                        number(keys, "tray_correlation", Range.CORRELATION),
                        keys.optional("place_sd").map(v -> placeSd(v, places)).orElse(Map.of()),
                        number(keys, "power", Range.INNER_PROPORTION)))
                .orElse(Expectations.none());
    }

    private static Map<String, Double> placeSd(PlanValue value, List<String> places) {
        var known = new ArrayList<>(places);
        known.add(Place.TRAY);
        var deviations = new LinkedHashMap<String, Double>();
        value.keys(known)
                .ifPresent(keys -> known.forEach(
                        level -> number(keys, level, Range.AMOUNT).ifPresent(sd -> deviations.put(level, sd))));
        return deviations;
    }

    static Optional<Costs> costs(PlanValue value) {
        return value.keys(COST_KEYS)
                .map(keys -> new Costs(
                        keys.optional("currency").flatMap(PlanValue::name),
                        number(keys, "tray", Range.AMOUNT),
                        number(keys, "seed_per_g", Range.AMOUNT),
                        number(keys, "labour_per_hour", Range.AMOUNT),
                        number(keys, "minutes_per_frame", Range.AMOUNT)));
    }

    static Optional<Crop> crop(PlanValue value) {
        return value.keys(CROP_KEYS).flatMap(keys -> {
            var name = keys.required("name").flatMap(PlanValue::name);
            var seedLot = keys.optional("seed_lot").flatMap(PlanValue::name);
            var weight = number(keys, "thousand_seed_weight_g", Range.POSITIVE);
            var seeds = whole(keys, "seeds_per_unit", LARGEST_CLUSTER);
            return name.map(n -> new Crop(n, seedLot, weight, seeds));
        });
    }

    private static OptionalDouble number(Keys keys, String key, Range range) {
        return keys.optional(key).map(v -> v.number(range)).orElse(OptionalDouble.empty());
    }

    private static OptionalInt whole(Keys keys, String key, int most) {
        return keys.optional(key).map(v -> v.whole(1, most)).orElse(OptionalInt.empty());
    }
}
