package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A long computation that is stopped from outside, in a virtual machine of its own. */
class StoppedTest {
    @TempDir
    private Path home;

    @Test
    @Timeout(60)
    void saysThatNothingWasWrittenAndWritesNothing() throws IOException, InterruptedException {
        var folder = home.resolve("demo");
        assertEquals(Fairtray.DONE, Run.of("demo", folder).status());
        Files.delete(folder.resolve("results.json"));
        Files.delete(folder.resolve("report.html"));
        var process = start("analyse", folder.toString(), "--bootstrap", "1000000");
        try (var err = process.errorReader(StandardCharsets.UTF_8)) {
            String before = readTo(err, "bootstrap draw ");
            process.toHandle().destroy(); // Process.destroy would close the stream as well
            String after = readTo(err, "nothing was written.");
            assertTrue(after.endsWith("Stopped: nothing was written."), before + after);
            assertTrue(process.waitFor(20, TimeUnit.SECONDS));
        } finally {
            process.destroyForcibly();
        }
        assertNotEquals(Fairtray.DONE, process.exitValue());
        assertFalse(Files.exists(folder.resolve("results.json")));
        assertFalse(Files.exists(folder.resolve("report.html")));
    }

    @Test
    @Timeout(60)
    void sizesComeWithWhatWasSimulatedSoFar() throws IOException, InterruptedException {
        var folder = Files.createDirectory(home.resolve("plan"));
        assertEquals(
                Fairtray.DONE,
                Run.of("begin", folder, "--like", "weight-by-soak").status());
        var process = start("size", folder.toString(), "--simulations", "1000000");
        try (var err = process.errorReader(StandardCharsets.UTF_8);
                var out = process.inputReader(StandardCharsets.UTF_8)) {
            readTo(err, "cover: 100 invented trials");
            process.toHandle().destroy();
            String said = readTo(out, "no such words");
            assertTrue(said.contains(" invented trials each, analysed as analyse does\n"), said);
            assertTrue(said.contains("within\nworthwhile (two one-sided tests).\n"), said);
            assertTrue(said.endsWith("\nPage: " + folder.resolve("size.html") + "\n"), said);
            assertTrue(process.waitFor(20, TimeUnit.SECONDS));
        } finally {
            process.destroyForcibly();
        }
        assertNotEquals(Fairtray.DONE, process.exitValue());
    }

    private static Process start(String... arguments) throws IOException {
        var command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Dpicocli.ansi=true",
                "-cp",
                System.getProperty("java.class.path"),
                Fairtray.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command).start();
    }

    /** All that comes, up to these words; or all there is. */
    private static String readTo(BufferedReader reader, String words) throws IOException {
        var read = new StringBuilder();
        int letter = reader.read();
        while (letter >= 0) {
            read.append((char) letter);
            if (read.toString().endsWith(words)) {
                return read.toString();
            }
            letter = reader.read();
        }
        return read.toString();
    }
}
