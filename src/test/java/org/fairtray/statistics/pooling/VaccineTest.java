package org.fairtray.statistics.pooling;

import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.Tolerance;
import org.junit.jupiter.api.Test;

/** Thirteen trials of a vaccine, log odds ratios: the numbers and their sources stand in meta-expected.json. */
class VaccineTest {
    /** The reference's steps for tau^2 end when they are below 1e-5. */
    private static final Tolerance OF_STEPS = new Tolerance(1e-5);

    private static final JsonObject EXPECTED = expected();

    private static Reader open(String name) {
        return new InputStreamReader(VaccineTest.class.getResourceAsStream(name), StandardCharsets.UTF_8);
    }

    private static JsonObject expected() {
        return JsonParser.parseReader(open("meta-expected.json")).getAsJsonObject();
    }

    static List<Study> trials() throws IOException {
        var studies = new ArrayList<Study>();
        try (var lines = new java.io.BufferedReader(open("meta.csv"))) {
            lines.readLine();
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                var cells = List.of(line.split(",", -1));
                studies.add(new Study(Double.parseDouble(cells.get(7)), Double.parseDouble(cells.get(8))));
            }
        }
        return studies;
    }

    private static double[] numbers(JsonArray array) {
        return array.asList().stream().mapToDouble(e -> e.getAsDouble()).toArray();
    }

    private static void compare(JsonObject expected, String name, double actual) {
        OF_STEPS.assertClose(expected.get(name).getAsDouble(), actual);
    }

    private static void compareMain(JsonObject expected, RandomEffects pooled) {
        assertTrue(pooled.settled());
        compare(expected, "estimate", pooled.estimate());
        compare(expected, "standard_error", pooled.standardError().orElseThrow());
        compare(expected, "low", pooled.low());
        compare(expected, "high", pooled.high());
        compare(expected, "tau2", pooled.tauSquared().orElseThrow());
        compare(expected, "q", pooled.q().orElseThrow());
    }

    @Test
    void allTrials() throws IOException {
        var studies = trials();
        assertEquals(EXPECTED.get("trials").getAsInt(), studies.size());
        var pooled = RandomEffects.of(studies, 0.05);
        compareMain(EXPECTED, pooled);
        assertEquals(EXPECTED.get("df").getAsInt(), pooled.degreesOfFreedom());
        compare(EXPECTED, "p", pooled.p());
        compare(EXPECTED, "q_p", pooled.qP().orElseThrow());
        var share = EXPECTED.getAsJsonObject("i2");
        compare(share, "from_tau2", pooled.iSquared().orElseThrow());
        compare(share, "from_q", pooled.iSquaredFromQ().orElseThrow());
        var prediction = pooled.prediction().orElseThrow();
        OF_STEPS.assertClose(
                numbers(EXPECTED.getAsJsonObject("prediction").getAsJsonArray("metafor_t_k_minus_1_hk_se")),
                prediction.low(),
                prediction.high());
        compare(EXPECTED.getAsJsonObject("without_hartung_knapp"), "standard_error", pooled.plainStandardError());
    }

    @Test
    void threeTrials() throws IOException {
        var all = trials();
        var pooled = RandomEffects.of(List.of(all.get(1), all.get(6), all.get(7)), 0.05);
        var expected = EXPECTED.getAsJsonObject("small");
        compareMain(expected, pooled);
        compare(expected, "p", pooled.p());
        var prediction = pooled.prediction().orElseThrow();
        OF_STEPS.assertClose(
                numbers(expected.getAsJsonArray("prediction_k_minus_1_hk_se")), prediction.low(), prediction.high());
    }

    /** Estimates more alike than their errors: the interval as it is would be fourteen times too short to decide with. */
    @Test
    void trialsThatAgreeByLuck() {
        var expected = EXPECTED.getAsJsonObject("homogeneous");
        var pooled = RandomEffects.of(
                Invented.studies(numbers(expected.getAsJsonArray("yi")), numbers(expected.getAsJsonArray("vi"))), 0.05);
        compareMain(expected, pooled);
        compare(expected, "standard_error_plain", pooled.plainStandardError());
        assertEquals(0, pooled.tauSquared().orElseThrow());
        assertEquals(0, pooled.iSquaredFromQ().orElseThrow());
        assertEquals(Optional.empty(), pooled.tauSquaredInterval());
        double half = 3.182446305283708 * pooled.plainStandardError();
        SUMMED.assertClose(pooled.estimate() - half, pooled.verdictLow());
        SUMMED.assertClose(pooled.estimate() + half, pooled.verdictHigh());
    }

    /** Log odds ratio, plain error and tau^2 as they are told to four digits in accounts of these trials (from memory). */
    @Test
    void whatWasPublished() throws IOException {
        var pooled = RandomEffects.of(trials(), 0.05);
        assertEquals(-0.7452, pooled.estimate(), 5e-5);
        assertEquals(0.1860, pooled.plainStandardError(), 5e-5);
        assertEquals(0.3378, pooled.tauSquared().orElseThrow(), 5e-5);
    }
}
