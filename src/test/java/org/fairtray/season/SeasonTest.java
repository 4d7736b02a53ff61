package org.fairtray.season;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.fairtray.command.Run;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.SizedLayout;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SeasonTest {
    private static Candidate candidate(String name, int days) {
        try {
            var plan = Files.readAllBytes(Path.of("designs", name + ".yaml"));
            var trial = TrialFiles.of(Map.of("plan.yaml", plan)).trial();
            var layout = Randomisation.of(trial).draw(Generator.of(1));
            return new Candidate(name, SizedLayout.of(trial, layout), days);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    private static final List<Candidate> THREE =
            List.of(candidate("soak-or-not", 7), candidate("weight-by-soak", 9), candidate("seed-lots", 5));

    /** Every division of the days among three trials, tried one by one. */
    @Test
    void noDivisionOfTheDaysAnswersMore() {
        for (int days : new int[] {5, 12, 21, 30, 44}) {
            double most = 0;
            for (int a = 0; 7 * a <= days; a++) {
                for (int b = 0; 7 * a + 9 * b <= days; b++) {
                    for (int c = 0; 7 * a + 9 * b + 5 * c <= days; c++) {
                        double answered = THREE.get(0).answered(a)
                                + THREE.get(1).answered(b)
                                + THREE.get(2).answered(c);
                        most = Math.max(most, answered);
                    }
                }
            }
            var season = Season.of(THREE, days);
            assertEquals(most, season.answered(), 0.05, days + " days");
            int taken = season.sown().stream().mapToInt(Season.Sown::days).sum();
            assertEquals(days, taken + season.left());
            assertTrue(season.left() >= 0, season::toString);
        }
    }

    @Test
    void theRichestForItsDaysComesFirstAndTheRestWaits() {
        var season = Season.of(THREE, 9);
        assertEquals("weight-by-soak", season.sown().get(0).trial());
        assertEquals(List.of("soak-or-not", "seed-lots"), season.waiting());
        assertEquals(5, season.questions());
    }

    @Test
    void nothingIsSownInTooFewDays() {
        var season = Season.of(THREE, 4);
        assertEquals(List.of(), season.sown());
        assertEquals(4, season.left());
        assertEquals(0, season.answered());
    }

    @Test
    void asACommand(@TempDir Path folder) {
        var soak = folder.resolve("soak");
        var lots = folder.resolve("lots");
        Run.of("begin", soak, "--like", "soak-or-not");
        Run.of("begin", lots, "--like", "seed-lots");
        var said = Run.of("season", soak, lots, "--weeks", "2");
        assertEquals(0, said.status(), said::err);
        assertTrue(said.out().startsWith("14 days on one rack answer "), said.out());
        assertEquals(2, Run.of("season", soak, "--weeks", "0").status());
        assertEquals(1, Run.of("season", folder.resolve("none")).status());
    }

    @Test
    void aFaultIsSaidWithItsFolder(@TempDir Path folder) throws IOException {
        var soak = folder.resolve("soak");
        var lots = folder.resolve("lots");
        Run.of("begin", soak, "--like", "soak-or-not");
        Run.of("begin", lots, "--like", "seed-lots");
        var plan = lots.resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan).replace("worthwhile:", "worthwile:"));
        var said = Run.of("season", soak, lots);
        assertEquals(1, said.status());
        assertTrue(said.err().startsWith(plan + ", line "), said.err());
        var from = Run.of("size", soak, "--from", lots);
        assertEquals(1, from.status());
        assertTrue(from.err().startsWith(plan + ", line "), from.err());
    }
}
