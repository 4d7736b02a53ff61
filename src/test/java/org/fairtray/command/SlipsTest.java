package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is said of the slips that anyone makes, word for word, and the exit status that goes with them. */
class SlipsTest {
    @TempDir
    private Path home;

    private Path trial;

    @BeforeEach
    void begin() {
        trial = home.resolve("trial");
        assertEquals(Fairtray.DONE, Run.of("begin", trial).status());
    }

    private static void assertProblem(String expected, Run run) {
        assertEquals(expected, run.err());
        assertEquals("", run.out());
        assertEquals(Fairtray.PROBLEM, run.status());
    }

    private static void assertUsage(String firstLine, Run run) {
        assertEquals(firstLine, run.complaints()[0]);
        assertEquals("", run.out());
        assertEquals(Fairtray.USAGE, run.status());
    }

    @Test
    void aCommandThatDoesNotExist() {
        var run = Run.of("aud", trial);
        assertUsage("Unmatched arguments from index 0: 'aud', '" + trial + "'", run);
        assertEquals("Did you mean: fairtray audit?", run.complaints()[1]);
    }

    @Test
    void noCommandAtAll() {
        assertUsage("Usage: fairtray [-hV] [COMMAND]", Run.of());
    }

    @Test
    void aFolderLeftOut() {
        for (var command : List.of("begin", "lay", "sheets", "audit", "check", "analyse")) {
            assertUsage("Missing required parameter: 'DIR'", Run.of(command));
        }
    }

    @Test
    void anOptionThatDoesNotExist() {
        assertUsage("Unknown options: '--sead', '7'", Run.of("lay", trial, "--sead", "7"));
        assertFalse(Files.exists(trial.resolve("layout.csv")));
    }

    @Test
    void aSeedThatIsNoNumber() {
        assertUsage(
                "Invalid value for option '--seed': 'seven' is not a long", Run.of("lay", trial, "--seed", "seven"));
    }

    @Test
    void aFolderThatDoesNotExist() {
        for (var command : List.of("lay", "sheets", "audit", "check", "analyse")) {
            assertProblem(
                    home.resolve("nowhere") + ": found no such folder; expected the folder of a trial\n",
                    Run.of(command, home.resolve("nowhere")));
        }
    }

    @Test
    void aFolderWithoutAPlan() throws IOException {
        Files.delete(trial.resolve("plan.yaml"));
        for (var command : List.of("lay", "sheets", "audit", "check", "analyse")) {
            assertProblem(
                    "plan.yaml: found no such file; expected the trial's plan; begin writes one\n",
                    Run.of(command, trial));
        }
    }

    @Test
    void aMisspeltKey() throws IOException {
        var plan = trial.resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan).replace("levels: [0, 8]", "lvels: [0, 8]"));
        for (var command : List.of("lay", "sheets", "audit", "check", "analyse")) {
            assertProblem(
                    "plan.yaml, line 12: found unknown key 'lvels'; expected one of name, unit, levels, applied_to;"
                            + " nearest: levels\n",
                    Run.of(command, trial));
        }
        assertFalse(Files.exists(trial.resolve("layout.csv")));
    }

    @Test
    void aPlaceTooSmallForAllTreatments() throws IOException {
        var plan = trial.resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan).replace("count: 4}", "count: 1}"));
        assertProblem(
                "Each shelf holds 1 tray, but soak makes 2 combinations, and a full set needs one tray for each. It fits"
                        + " with 2, 4 or more there.\n",
                Run.of("lay", trial));
        assertFalse(Files.exists(trial.resolve("layout.csv")));
    }

    @Test
    void layingOutTwice() throws IOException {
        assertEquals(Fairtray.DONE, Run.of("lay", trial, "--seed", 7).status());
        var before = Files.readString(trial.resolve("layout.csv"));
        assertProblem("""
                layout.csv: found it already there; expected no such file yet; --replace replaces it
                seal.json: found it already there; expected no such file yet; --replace replaces it
                sheets.pdf: found it already there; expected no such file yet; --replace replaces it
                key.pdf: found it already there; expected no such file yet; --replace replaces it
                """, Run.of("lay", trial, "--seed", 8));
        assertEquals(before, Files.readString(trial.resolve("layout.csv")));
        assertEquals(
                Fairtray.DONE, Run.of("lay", trial, "--seed", 8, "--replace").status());
        assertFalse(before.equals(Files.readString(trial.resolve("layout.csv"))));
    }

    @Test
    void layingOutAnewAfterCounting() throws IOException {
        Run.of("lay", trial, "--seed", 7);
        var readings = "tray,day,frame,germinated,through\nT01,4,1,40,3\n";
        Files.writeString(trial.resolve("readings.csv"), readings);
        assertEquals(Fairtray.PROBLEM, Run.of("lay", trial).status());
        var run = Run.of("lay", trial, "--seed", 8, "--replace");
        assertTrue(
                run.out().contains("\nReadings of the layout before were set aside as readings-set-aside-1.csv.\n"),
                run::out);
        assertEquals(readings, Files.readString(trial.resolve("readings-set-aside-1.csv")));
        assertFalse(Files.exists(trial.resolve("readings.csv")));
    }

    @Test
    void auditingBeforeLayingOut() {
        assertProblem("layout.csv: found no such file; expected the layout; lay draws one\n", Run.of("audit", trial));
    }

    @Test
    void analysingWithoutReadings() {
        Run.of("lay", trial, "--seed", 7);
        assertProblem(
                "readings.csv: found no such file; expected readings; one line per tray, day and counting frame\n",
                Run.of("analyse", trial));
        assertFalse(Files.exists(trial.resolve("results.json")));
    }

    @Test
    void beginningOverAPlan() throws IOException {
        Files.writeString(trial.resolve("plan.yaml"), "mine");
        assertProblem(
                "plan.yaml: found it already there; expected no such file yet; --replace replaces it\n",
                Run.of("begin", trial));
        assertEquals("mine", Files.readString(trial.resolve("plan.yaml")));
        assertEquals(Fairtray.DONE, Run.of("begin", trial, "--replace").status());
        assertFalse(Files.readString(trial.resolve("plan.yaml")).equals("mine"));
    }

    @Test
    void beginningLikeAPlanThatDoesNotExist() {
        assertUsage(
                "no ready plan 'soak-or-no'; expected one of dark-days, first-screening, follow-up, four-mats-by-height, how-heavy,"
                        + " how-long-to-soak, light-by-watering, mat-as-good-as, paper-test, seed-lots, shelf-light,"
                        + " six-mats-in-stacks-of-four, soak-by-mat, soak-or-not, soaking-jars, sowing-density, ten-growers, weight-by-soak; nearest: soak-or-not",
                Run.of("begin", home.resolve("other"), "--like", "soak-or-no"));
        assertFalse(Files.exists(home.resolve("other")));
    }

    @Test
    void readingsThatFallAndTraysThatAreNotThere() throws IOException {
        Run.of("lay", trial, "--seed", 7);
        Files.writeString(
                trial.resolve("readings.csv"),
                "tray,day,frame,germinated,through\nT01,4,1,40,3\nT01,5,1,39,3\nT99,4,1,40,3\n");
        var run = Run.of("check", trial);
        assertEquals(Fairtray.PROBLEM, run.status());
        assertEquals(2, run.complaints().length, run::err);
        assertTrue(run.complaints()[0].startsWith("readings.csv, line 3: found "), run::err);
        assertTrue(run.complaints()[1].startsWith("readings.csv, line 4: found "), run::err);
    }
}
