package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One tray of each crop in a stack, and the fair version that audit makes of it. */
class AuditCommandTest {
    @TempDir
    private Path home;

    private Path stack;

    @BeforeEach
    void oneTrayOfEach() throws IOException {
        stack = Files.createDirectory(home.resolve("stack"));
        Files.writeString(stack.resolve("plan.yaml"), """
                format: 1
                trial: Three crops
                factors:
                  - {name: crop, levels: [pea, beet, cress]}
                place:
                  - {name: layer, count: 3}
                counting: {days: [4], seeds_per_frame: 100}
                outcomes:
                  - {name: germinated, kind: count, day: 4}
                """);
        Files.writeString(stack.resolve("layout.csv"), "tray,layer,crop\nA,1,pea\nB,2,beet\nC,3,cress\n");
    }

    @Test
    void theFairVersionIsPrinted() {
        var run = Run.of("audit", stack);
        assertEquals("", run.err());
        assertTrue(run.out().contains("\nOne tray of each: what it can tell, and what it can't\n"), run::out);
        assertTrue(run.out().endsWith("""
                # The fair version of: Three crops
                format: 1
                trial: "Three crops"
                factors:
                  - {name: crop, levels: [pea, beet, cress], applied_to: tray}
                place:
                  - {name: shelf, count: 2}
                  - {name: stack, count: 2}
                  - {name: layer, count: 3}
                counting: {days: [4], frames_per_tray: 1, seeds_per_frame: 100, counts: cumulative}
                outcomes:
                  - {name: germinated, kind: count, of: sown, day: 4}
                analysis: {alpha: 0.05, interactions: 2, anova_scale: angular}
                """), run::out);
    }

    @Test
    void theFairVersionIsWrittenAndCanBeLaidOut() throws IOException {
        var fair = home.resolve("fair");
        var run = Run.of("audit", stack, "--fair-plan", fair);
        assertEquals(0, run.status());
        assertTrue(run.out().contains("Written: " + fair.resolve("plan.yaml")), run::out);
        assertEquals(0, Run.of("lay", fair, "--seed", 4).status());
        assertTrue(Run.of("audit", fair, "--json").json().get("fair").getAsBoolean());
        assertFalse(Run.of("audit", stack, "--json")
                .json()
                .get("advice")
                .getAsJsonArray()
                .isEmpty());
    }

    @Test
    void aPlanThatIsThereIsNeverReplaced() throws IOException {
        var before = Files.readString(stack.resolve("plan.yaml"));
        var run = Run.of("audit", stack, "--fair-plan", stack);
        assertEquals(2, run.status());
        assertTrue(run.err().startsWith(stack + " has a plan already; name a new folder"), run::err);
        assertEquals(before, Files.readString(stack.resolve("plan.yaml")));
    }

    @Test
    void whereTreatmentsAreRepeatedThereIsNoFairVersionToWrite() {
        var trial = home.resolve("mine");
        Run.of("begin", trial);
        Run.of("lay", trial, "--seed", 7);
        var run = Run.of("audit", trial, "--fair-plan", home.resolve("fair"));
        assertEquals(2, run.status());
        assertTrue(run.err().startsWith("--fair-plan is for a trial with one tray of each treatment"), run::err);
        assertFalse(Files.exists(home.resolve("fair")));
    }
}
