package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What lay writes beside the layout, and what it and audit say of batches. */
class LayBesideTest {
    private static final String PLAN = """
            format: 1
            trial: Jars, frames and moves
            crop: {name: beet, thousand_seed_weight_g: 15}
            factors: [{name: soak, unit: h, levels: [0, 8], applied_to: jar}]
            place: [{name: stack, count: 2}, {name: layer, count: 4, across: stack}]
            batches: [{name: jar, of: soak, count: %d}]
            counting: {days: [4], frames_per_tray: 2, seeds_per_frame: 40%s}
            outcomes: [{name: through, kind: count, day: 4}]
            """;
    private static final String FRAMES = ", tray_cm: [50, 25], frame_cm: [10, 5], margin_cm: 2";
    private static final String MORE = "rotation: {level: layer, days: [1, 2, 3]}\nsowing: {grams_per_tray: 30}\n";

    @TempDir
    private Path trial;

    private List<String> lines(String file) throws IOException {
        return Files.readAllLines(trial.resolve(file));
    }

    private void plan(String text) throws IOException {
        Files.writeString(trial.resolve("plan.yaml"), text);
    }

    @Test
    void framesAndMovesAreWrittenAndSaid() throws IOException {
        plan(PLAN.formatted(2, FRAMES) + MORE);
        var run = Run.of("lay", trial, "--seed", 5);
        assertEquals(Fairtray.DONE, run.status(), run.err());
        assertTrue(
                run.out().contains("Written: layout.csv, seal.json, frames.csv, rotation.csv, sheets.pdf, key.pdf."),
                run.out());
        assertTrue(run.out().contains("30 g a tray is about 2000 seeds, and about 80 in what is counted"), run.out());
        assertTrue(run.out().contains("each stands at each of the 4 places for 1 of 4 spells"), run.out());
        assertEquals("tray,stack,layer,jar,soak", lines("layout.csv").get(0));
        assertEquals("tray,frame,left_cm,front_cm", lines("frames.csv").get(0));
        assertEquals(1 + 8 * 2, lines("frames.csv").size());
        assertEquals("day,tray,stack,layer", lines("rotation.csv").get(0));
        assertEquals(1 + 8 * 3, lines("rotation.csv").size());
        assertTrue(Run.of("check", trial).out().contains("30 g a tray is about 2000 seeds"));
        String audit = Run.of("audit", trial).out();
        assertTrue(audit.startsWith("Jars, frames and moves: nothing unfair was found in the layout.\n"), audit);
    }

    @Test
    void theyGoWithTheLayoutThatTheyWereDrawnFor() throws IOException {
        plan(PLAN.formatted(2, FRAMES) + MORE);
        Run.of("lay", trial, "--seed", 5);
        var layout = lines("layout.csv");
        plan(PLAN.formatted(2, "") + MORE);
        assertEquals(Fairtray.PROBLEM, Run.of("lay", trial, "--seed", 5).status());
        assertTrue(Files.exists(trial.resolve("frames.csv")));
        assertEquals(
                Fairtray.DONE, Run.of("lay", trial, "--seed", 5, "--replace").status());
        assertFalse(Files.exists(trial.resolve("frames.csv")));
        assertTrue(Files.exists(trial.resolve("rotation.csv")));
        assertEquals(layout, lines("layout.csv"));
    }

    @Test
    void whoeverChangesThemIsSeen() throws IOException {
        plan(PLAN.formatted(2, FRAMES) + MORE);
        Run.of("lay", trial, "--seed", 5);
        assertFalse(Run.of("check", trial).out().contains("seal.json"));
        Run.of("sheets", trial, "--replace");
        var frames = lines("frames.csv");
        var first = frames.get(1);
        frames.set(1, frames.get(2).replaceAll("^(\\w+),2,", "$1,1,"));
        frames.set(2, first.replaceAll("^(\\w+),1,", "$1,2,"));
        Files.write(trial.resolve("frames.csv"), frames);
        String changed = "seal.json: Where the counting frames lie (frames.csv) was changed after it was sealed.";
        assertTrue(Run.of("check", trial).out().contains(changed));
        assertTrue(Run.of("audit", trial).out().contains("The counting frames were changed after sealing, so they"));
        Files.delete(trial.resolve("rotation.csv"));
        assertTrue(Run.of("audit", trial).out().contains("The counting frames and the moves were changed"));
        Files.writeString(trial.resolve("frames.csv"), "tray,frame,left_cm\n");
        var broken = Run.of("sheets", trial, "--replace");
        assertEquals(Fairtray.PROBLEM, broken.status());
        assertEquals(
                "frames.csv, line 1: found no column 'front_cm'; expected a column named front_cm\n", broken.err());
    }

    @Test
    void oneJarForEachLevelIsFalseReplication() throws IOException {
        plan(PLAN.formatted(1, ""));
        Run.of("lay", trial, "--seed", 5);
        var run = Run.of("audit", trial);
        assertTrue(
                run.out().contains("false replication (soak)\n  All trays with the same soak came out of one jar"),
                run.out());
        assertTrue(run.out().contains("What mends it: Make two jars or more for each level of soak"), run.out());
    }

    /** Jars are repeated here, but one tray of each treatment leaves nothing that two jars alike could show. */
    @Test
    void jarsWhoseComparisonsAreUsedUpAreNotCalledUnrepeated() throws IOException {
        plan("""
                format: 1
                trial: Mixed bag
                factors:
                  - {name: soak, unit: h, levels: [0, 6]}
                  - {name: mat, levels: [hemp, coir, pad, felt]}
                place: [{name: spot, count: 8}]
                batches: [{name: jar, of: soak, count: 2}]
                counting: {days: [6], frames_per_tray: 1, seeds_per_frame: 50}
                outcomes: [{name: through, kind: count, day: 6}]
                """);
        Run.of("lay", trial, "--seed", 3);
        String audit = Run.of("audit", trial).out();
        assertTrue(audit.contains("All that one jar and another can show is used up by other differences"), audit);
        assertTrue(audit.contains("What mends it: Give each level of soak more jars, or ask for main effects"), audit);
    }
}
