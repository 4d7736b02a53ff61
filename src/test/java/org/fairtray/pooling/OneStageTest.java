package org.fairtray.pooling;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.Shared;
import org.junit.jupiter.api.Test;

/** All trays of invented farms in one model, against lme4: src/test/resources/org/fairtray/pooling/one-stage.R made the numbers. */
class OneStageTest {
    private static final String PLAN = """
            format: 1
            trial: Farm %d
            factors: [{name: soak, unit: h, levels: [0, 4, 8]}, {name: mat, levels: [hemp, coir]}]
            place: [{name: shelf, count: 4}, {name: spot, count: 6}]
            counting: {days: [5], seeds_per_frame: 60}
            outcomes: [{name: through, kind: count, of: sown, day: 5}]
            """;

    private static List<SharedTrial> farms() {
        var trials = new ArrayList<SharedTrial>();
        for (int farm = 1; farm <= 10; farm++) {
            double own = 0.4 * ((farm * 7) % 5 - 2);
            double base = 0.35 * ((farm * 3) % 7 - 3) - 0.3;
            trials.add(new SharedTrial(
                    "id" + farm,
                    Optional.empty(),
                    Contribution.of(Shared.sown(
                            PLAN.formatted(farm),
                            farm,
                            Map.of("soak=4", 0.3 + own / 2, "soak=8", 0.7 + own, "mat=coir", -0.4),
                            base))));
        }
        return trials;
    }

    /** The rows that the script reads; the test holds that the file is theirs. */
    private static List<String> rows() {
        var rows = new ArrayList<String>();
        rows.add("farm,shelf,mat,soak,y,m");
        for (var trial : farms()) {
            var counts = trial.contribution().outcomes().get(0).counts().orElseThrow();
            for (int i = 0; i < counts.treatment().size(); i++) {
                var treatment = counts.treatments().get(counts.treatment().get(i));
                rows.add(String.join(
                        ",",
                        trial.id(),
                        trial.id() + "." + counts.place().get(i),
                        treatment.get("mat"),
                        treatment.get("soak"),
                        counts.successes().get(i).toString(),
                        counts.trials().get(i).toString()));
            }
        }
        return rows;
    }

    @Test
    void theReferenceIsOfTheseCounts() throws IOException {
        assertEquals(Files.readAllLines(Path.of("src/test/resources/org/fairtray/pooling/one-stage.csv")), rows());
    }

    @Test
    void agreesWithLme4() {
        var effects = Pooling.of(farms()::forEach, PoolingChoices.USUAL, "0.1.0").effects().stream()
                .filter(e -> e.factor().equals("soak"))
                .toList();
        // lme4 1.1.31, bobyqa: coefficients, standard errors, standard deviations, log-likelihood; see one-stage.R
        double[] estimates = {0.3126624749, 0.7655926778};
        double[] errors = {0.1269988201, 0.1275234842};
        for (int l = 0; l < 2; l++) {
            var fit = effects.get(l).oneStage();
            assertNull(fit.why());
            // Iterated to another rule of stopping; lme4 takes its errors from a Hessian by differences.
            assertClose(estimates[l], fit.estimate(), 1e-5);
            assertClose(errors[l], fit.standardError(), 1e-3);
        }
        var deviations = effects.get(0).oneStage().standardDeviations();
        assertEquals(List.of("farm", "slope", "other factors", "place", "tray"), List.copyOf(deviations.keySet()));
        double[] lme4 = {0.81212833, Math.sqrt(2) * 0.26171750, 0.25613646, 0, 0.13131965};
        int at = 0;
        for (double deviation : deviations.values()) {
            assertEquals(lme4[at++], deviation, 2e-5);
        }
        assertEquals(-719.776697645, effects.get(0).oneStage().logLikelihood(), 1e-6);
    }

    private static void assertClose(double expected, double found, double within) {
        assertEquals(expected, found, within * Math.abs(expected));
    }
}
