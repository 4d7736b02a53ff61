package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NextCommandTest {
    @TempDir
    Path folder;

    private Path trial() throws IOException {
        var trial = folder.resolve("trial");
        Files.createDirectories(trial);
        for (var name : new String[] {"plan.yaml", "layout.csv", "readings.csv"}) {
            Files.copy(Path.of("datasets/never-made").resolve(name), trial.resolve(name));
        }
        return trial;
    }

    @Test
    void writesAPlanThatCanBeLaidOut() throws IOException {
        var trial = trial();
        var said = Run.of("next", trial.toString());
        assertEquals(0, said.status(), said::err);
        var plan = Files.readString(trial.resolve("next/plan.yaml"));
        assertTrue(plan.startsWith("# The follow-up of: Invented, soaking and mat"), plan);
        assertTrue(plan.contains("\n# soak is still open: sown again at 0 h, 8 h.\n"), plan);
        var laid = Run.of("lay", trial.resolve("next").toString(), "--seed", "3");
        assertEquals(0, laid.status(), laid::err);
    }

    @Test
    void anotherPlanIsKept() throws IOException {
        var trial = trial();
        var elsewhere = folder.resolve("mine");
        assertEquals(
                0,
                Run.of("next", trial.toString(), "--into", elsewhere.toString()).status());
        var before = Files.readString(elsewhere.resolve("plan.yaml"));
        var again = Run.of("next", trial.toString(), "--into", elsewhere.toString());
        assertEquals(1, again.status());
        assertTrue(again.err().contains("--replace"), again.err());
        assertEquals(before, Files.readString(elsewhere.resolve("plan.yaml")));
    }

    @Test
    void asJson() throws IOException {
        var said = Run.of("next", trial().toString(), "--json");
        assertTrue(said.out().contains("\"decisions\""), said.out());
        assertTrue(said.out().contains("\"units_per_level\""), said.out());
    }

    @Test
    void needsReadings() throws IOException {
        var trial = trial();
        Files.delete(trial.resolve("readings.csv"));
        var said = Run.of("next", trial.toString());
        assertEquals(1, said.status());
        assertTrue(said.err().contains("readings.csv"), said.err());
    }
}
