package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonElement;
import com.google.gson.JsonParser;
import java.util.List;
import org.fairtray.findings.Findings;
import org.fairtray.report.Report;
import org.fairtray.report.ResultsJson;

/** What holds of every analysis, whatever the trial. */
final class Sound {
    private Sound() {}

    /** The findings of a trial, once they are seen to be sound: written, reported, probable and honest. */
    static Findings findings(Trials trials) {
        var findings = trials.findings();
        var json = JsonParser.parseString(ResultsJson.of(findings));
        probabilities(json, "");
        var html = Report.of(trials.trial(), trials.layout(), findings).html();
        assertTrue(html.contains("</html>"), "the report has no end");
        assertFalse(html.contains("NaN") || html.contains("Infinity"), "the report shows a number that is none");
        findings.outcomes().forEach(o -> honest(trials, o));
        return findings;
    }

    private static void probabilities(JsonElement element, String key) {
        if (element.isJsonArray()) {
            element.getAsJsonArray().forEach(e -> probabilities(e, key));
        } else if (element.isJsonObject()) {
            element.getAsJsonObject().entrySet().forEach(e -> probabilities(e.getValue(), e.getKey()));
        } else if (List.of("p", "p_adjusted", "rate", "against_rate", "fitted_rate")
                        .contains(key)
                && !element.isJsonNull()) {
            double p = element.getAsDouble();
            assertTrue(p >= 0 && p <= 1, () -> key + " is " + p);
        }
    }

    /** A verdict is no more than its test and its intervals allow. */
    private static void honest(Trials trials, Findings.OutcomeFindings outcome) {
        double worthwhile = trials.trial().expectations().worthwhile().orElseThrow();
        double alpha = trials.trial().choices().alpha();
        for (var verdict : outcome.verdicts()) {
            var test = outcome.tests().stream()
                    .filter(t -> t.factors().equals(List.of(verdict.factor())))
                    .findFirst()
                    .orElseThrow();
            var effects = outcome.effects().stream()
                    .filter(e -> e.factor().equals(verdict.factor()))
                    .toList();
            switch (verdict.verdict()) {
                case "changed" -> assertTrue(test.p() <= alpha, verdict::sentence);
                case "no worthwhile change" -> {
                    assertEquals("count", outcome.kind());
                    assertFalse(effects.isEmpty(), verdict::sentence);
                    effects.forEach(e -> assertTrue(-worthwhile < e.low() && e.high() < worthwhile, verdict::sentence));
                }
                default -> assertEquals("cannot tell", verdict.verdict());
            }
        }
    }
}
