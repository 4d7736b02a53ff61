package org.fairtray.report;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Trial;

/** What things are called on the page, in the grower's own names and units. */
final class Names {
    private final Trial trial;
    private final Map<String, Factor> factors;

    Names(Trial trial) {
        this.trial = trial;
        factors = trial.factors().stream()
                .collect(Collectors.toMap(Factor::name, f -> f, (a, b) -> a, LinkedHashMap::new));
    }

    /** "8 h", "hemp". */
    String level(String factor, String level) {
        var known = factors.get(factor);
        return known == null ? level : known.describe(level);
    }

    /** "soak 8 h, mat hemp". */
    String treatment(Map<String, String> treatment) {
        return treatment(treatment, Set.of());
    }

    /** The same, silent about some factors; "all treatments" where nothing is left to say. */
    String treatment(Map<String, String> treatment, Set<String> without) {
        var words = treatment.entrySet().stream()
                .filter(e -> !without.contains(e.getKey()))
                .map(e -> e.getKey() + " " + level(e.getKey(), e.getValue()))
                .collect(Collectors.joining(", "));
        return words.isEmpty() ? "all trays" : words;
    }

    /** "8 h · 3 kg · hemp", for places too small for the factors' names. */
    String brief(Map<String, String> treatment) {
        return treatment.entrySet().stream()
                .map(e -> level(e.getKey(), e.getValue()))
                .collect(Collectors.joining(" · "));
    }

    /** "soak · cover · mat": how {@link #brief} is to be read. */
    String briefOrder() {
        return String.join(" · ", trial.factorNames());
    }

    /** "soak: 8 h against 0 h". */
    String effect(Effect effect) {
        return change(effect.factor(), effect.level(), effect.against());
    }

    /** The same from its parts. */
    String change(String factor, String level, String against) {
        return factor + ": " + level(factor, level) + " against " + level(factor, against);
    }

    /** "through by day 6". */
    static String outcome(OutcomeFindings outcome) {
        return outcome.name() + (isCount(outcome) ? " by day " : " on day ") + outcome.day();
    }

    /** "through, % of seeds sown", or the measure's name. */
    static String axis(OutcomeFindings outcome) {
        if (!isCount(outcome)) {
            return outcome.name();
        }
        return outcome.name() + ", % of seeds " + ("germinated".equals(outcome.of()) ? "germinated" : "sown");
    }

    static boolean isCount(OutcomeFindings outcome) {
        return outcome.kind().equals("count");
    }

    /** "95 %": how sure the intervals are. */
    String sure() {
        return Digits.percent(1 - trial.choices().alpha());
    }

    /** The factors that treatments of a list differ in, in the treatments' own order. */
    static Set<String> varying(List<Map<String, String>> treatments) {
        var varying = new LinkedHashSet<String>();
        var first = treatments.get(0);
        first.forEach((factor, level) -> {
            if (treatments.stream().anyMatch(t -> !level.equals(t.get(factor)))) {
                varying.add(factor);
            }
        });
        return varying;
    }
}
