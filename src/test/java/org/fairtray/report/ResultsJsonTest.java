package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.StringWriter;
import java.util.List;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.junit.jupiter.api.Test;

class ResultsJsonTest {

    private static JsonObject json(SampleFindings sample) {
        return JsonParser.parseString(ResultsJson.of(sample.findings())).getAsJsonObject();
    }

    private static JsonObject outcome(JsonObject json, int index) {
        return json.getAsJsonArray("outcomes").get(index).getAsJsonObject();
    }

    @Test
    void writesKeysInSnakeCaseAndInOrder() {
        var json = json(SampleFindings.splitPlot());
        assertEquals(
                List.of("fairtray", "trial", "sealed", "seal", "outcomes", "warnings"), List.copyOf(json.keySet()));
        assertEquals(
                List.of("state", "sentence", "seed", "generator", "time", "version", "plan_sha256", "layout_sha256"),
                List.copyOf(json.getAsJsonObject("seal").keySet()));
        var term = outcome(json, 0)
                .getAsJsonObject("anova")
                .getAsJsonArray("strata")
                .get(1)
                .getAsJsonObject()
                .getAsJsonArray("terms")
                .get(0)
                .getAsJsonObject();
        assertEquals(
                List.of(
                        "term",
                        "factors",
                        "df",
                        "sum_of_squares",
                        "mean_square",
                        "f",
                        "denominator_df",
                        "p",
                        "efficiency"),
                List.copyOf(term.keySet()));
    }

    @Test
    void writesEachFitAndSummaryByItsOwnComponents() {
        var count = outcome(json(SampleFindings.splitPlot()), 0);
        var fits = count.getAsJsonObject("logistic").getAsJsonObject("fits");
        assertEquals(
                List.of("binomial", "quasi", "beta_binomial", "mixed", "marginal", "penalised"),
                List.copyOf(fits.keySet()));
        assertEquals(18, fits.getAsJsonObject("binomial").get("residual_df").getAsInt());
        assertEquals(2.05, fits.getAsJsonObject("quasi").get("dispersion").getAsDouble());
        var effect = count.getAsJsonArray("effects").get(0).getAsJsonObject();
        assertEquals(0.0082, effect.get("p_adjusted").getAsDouble());
        assertTrue(effect.has("odds_ratio") && effect.has("against_rate"));
        var measure = outcome(json(SampleFindings.splitPlot()), 2);
        var mean = measure.getAsJsonArray("summary").get(0).getAsJsonObject();
        assertEquals(2.12, mean.get("standard_deviation").getAsDouble());
    }

    @Test
    void writesWhatIsNotAvailableAsNull() {
        var outcome = outcome(json(SampleFindings.tiny()), 0);
        var effect = outcome.getAsJsonArray("effects").get(0).getAsJsonObject();
        assertTrue(effect.has("difference") && effect.get("difference").isJsonNull());
        assertTrue(outcome.getAsJsonObject("logistic").get("used").isJsonNull());
    }

    @Test
    void keepsEveryDigit() {
        double third = 1 / 3.0;
        var json = JsonParser.parseString(ResultsJson.of(withDispersion(third))).getAsJsonObject();
        assertEquals(third, dispersion(json));
        assertEquals(
                Double.MIN_VALUE,
                dispersion(JsonParser.parseString(ResultsJson.of(withDispersion(Double.MIN_VALUE)))
                        .getAsJsonObject()));
    }

    @Test
    void refusesWhatIsNotANumber() {
        var nan = assertThrows(IllegalStateException.class, () -> ResultsJson.of(withDispersion(Double.NaN)));
        assertEquals(
                "outcomes[0].logistic.fits.quasi.dispersion is NaN: expected a finite number or null",
                nan.getMessage());
        var infinite = assertThrows(
                IllegalStateException.class, () -> ResultsJson.of(withDispersion(Double.NEGATIVE_INFINITY)));
        assertEquals(
                "outcomes[0].logistic.fits.quasi.dispersion is -Infinity: expected a finite number or null",
                infinite.getMessage());
    }

    @Test
    void manglesNoName() {
        var written = ResultsJson.of(SampleFindings.hostile().findings());
        assertTrue(written.contains("<script>alert(1)</script>"));
        var json = JsonParser.parseString(written).getAsJsonObject();
        assertEquals(SampleFindings.EVIL, json.get("trial").getAsString());
        var treatment = outcome(json, 0)
                .getAsJsonArray("summary")
                .get(0)
                .getAsJsonObject()
                .getAsJsonObject("treatment");
        assertEquals(List.of(SampleFindings.EVIL, "x".repeat(200)), List.copyOf(treatment.keySet()));
    }

    private static double dispersion(JsonObject json) {
        return outcome(json, 0)
                .getAsJsonObject("logistic")
                .getAsJsonObject("fits")
                .getAsJsonObject("quasi")
                .get("dispersion")
                .getAsDouble();
    }

    private static Findings withDispersion(double dispersion) {
        var sample = SampleFindings.tiny();
        var o = sample.findings().outcomes().get(0);
        var logistic = new Logistic(
                "quasi", "", null, java.util.Map.of("quasi", new Logistic.Quasi(dispersion, List.of(), List.of())));
        var outcome = new Findings.OutcomeFindings(
                o.name(),
                o.kind(),
                o.of(),
                o.day(),
                o.trays(),
                o.leftOut(),
                o.leftOutReasons(),
                o.design(),
                o.summary(),
                o.anova(),
                logistic,
                o.rerandomisation(),
                o.tests(),
                o.effects(),
                o.pairs(),
                o.interactions(),
                o.trends(),
                o.best(),
                o.asGoodAs(),
                o.costs(),
                o.speed(),
                o.verdicts(),
                o.soundness(),
                o.trayValues(),
                o.progress(),
                o.methods());
        return SampleFindings.findings(sample.trial(), List.of(outcome));
    }

    private record Halves(String one, double other) {}

    @Test
    void printsTheSameText() {
        var printed = new StringWriter();
        ResultsJson.print(SampleFindings.splitPlot().findings(), printed);
        assertEquals(ResultsJson.of(SampleFindings.splitPlot().findings()), printed.toString());
    }

    @Test
    void printsNothingWhereANumberIsNone() {
        var printed = new StringWriter();
        var failure = assertThrows(
                IllegalStateException.class, () -> ResultsJson.print(new Halves("a", Double.NaN), printed));
        assertEquals("other is NaN: expected a finite number or null", failure.getMessage());
        assertEquals("", printed.toString());
    }
}
