package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/** Reads combinations of levels: the control, and those that are never made. */
final class TreatmentReader {
    private static final int MOST_TREATMENTS = 100_000;

    private final Map<String, List<String>> levels;

    /** @param levels by factor, in the plan's order */
    TreatmentReader(Map<String, List<String>> levels) {
        this.levels = levels;
    }

    /** A combination of one level or more; empty if anything is wrong with it. */
    Optional<Treatment> read(PlanValue value) {
        return value.keys(List.copyOf(levels.keySet())).flatMap(keys -> {
            if (keys.all().isEmpty()) {
                return value.refuse("factors with a level each");
            }
            var read = new LinkedHashMap<String, String>();
            // In the plan's order of factors, whatever the order here, so that a treatment always reads the same.
            levels.forEach((factor, known) ->
                    keys.optional(factor).flatMap(v -> level(factor, v, known)).ifPresent(l -> read.put(factor, l)));
            return read.size() == keys.all().size() ? Optional.of(new Treatment(read)) : Optional.empty();
        });
    }

    private static Optional<String> level(String factor, PlanValue value, List<String> known) {
        // A factor whose own levels are wrong has been reported there.
        return known.isEmpty() ? Optional.empty() : value.oneOf("level of " + factor, known);
    }

    List<Treatment> never(PlanValue value) {
        return value.each("combinations of levels", "a combination", this::read);
    }

    /** Reports a plan with too many treatments, and levels that no treatment is left with. */
    static void check(List<Factor> factors, List<Treatment> never, int line, Problems problems) {
        long combinations = 1;
        for (var factor : factors) {
            combinations = Math.min(combinations * factor.levels().size(), MOST_TREATMENTS + 1L);
        }
        if (combinations > MOST_TREATMENTS) {
            problems.add(0, "more than " + MOST_TREATMENTS + " combinations of levels", "fewer factors or levels");
        } else if (!never.isEmpty()) {
            checkLeft(factors, never, line, problems);
        }
    }

    private static void checkLeft(List<Factor> factors, List<Treatment> never, int line, Problems problems) {
        var made = combinations(factors).stream()
                .filter(t -> never.stream().noneMatch(t::includes))
                .toList();
        for (var factor : factors) {
            for (var level : factor.levels()) {
                var part = new Treatment(Map.of(factor.name(), level));
                if (made.stream().noneMatch(t -> t.includes(part))) {
                    problems.add(
                            line,
                            "no treatment left with " + Wording.visible(part.describe()),
                            "never to leave every level with a treatment");
                }
            }
        }
    }

    private static List<Treatment> combinations(List<Factor> factors) {
        List<Treatment> all = List.of(new Treatment(Map.of()));
        for (var factor : factors) {
            var longer = new ArrayList<Treatment>();
            for (var start : all) {
                factor.levels().forEach(l -> longer.add(start.with(new Treatment(Map.of(factor.name(), l)))));
            }
            all = longer;
        }
        return all;
    }
}
