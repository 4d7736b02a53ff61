package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import org.fairtray.command.Run;
import org.fairtray.design.Generator;
import org.fairtray.files.TrialFolder;
import org.fairtray.sizing.InventedReadings;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The walk through a trial in README.md, done as it stands there. A mark before each fenced block says what the block is:
 * commands to run, what they print, a file to write or how one begins, lines of a plan to change.
 */
class ReadmeTest {
    private static final Pattern BLOCK =
            Pattern.compile("<!-- ([a-z]+)(?: (\\S+))? -->\\s+(?:```\\w+\\n(.*?)```|(?=<!--))", Pattern.DOTALL);

    private static final List<String> MARKS = List.of("run", "prints", "edit", "begins", "write", "counted");

    @TempDir
    private Path home;

    private record Block(String mark, String file, String text) {}

    private static List<Block> blocks() throws IOException {
        return BLOCK.matcher(Files.readString(Path.of("README.md")))
                .results()
                .map(r -> new Block(r.group(1), r.group(2), r.group(3)))
                .filter(b -> MARKS.contains(b.mark))
                .toList();
    }

    @Test
    void theWalkRunsAsItIsWritten() throws IOException {
        var printed = "";
        var all = new StringBuilder();
        int ran = 0;
        for (var block : blocks()) {
            switch (block.mark) {
                case "run" -> {
                    printed = run(block.text);
                    all.append(printed);
                    ran++;
                }
                case "prints" -> assertEquals(block.text, printed);
                case "edit" -> edit(home.resolve(block.file), block.text);
                case "begins" -> {
                    var whole = Files.readString(home.resolve(block.file));
                    assertTrue(whole.startsWith(block.text), () -> block.file + " begins otherwise:\n" + whole);
                }
                case "write" -> Files.writeString(home.resolve(block.file), block.text);
                case "counted" -> count(home.resolve(block.file));
                default -> throw new AssertionError("unknown mark " + block.mark);
            }
        }
        assertEquals(7, ran);
        var trial = home.resolve("soaking");
        assertTrue(Files.readString(trial.resolve("report.html")).contains("Does soaking bring more roots through?"));
        assertTrue(Files.exists(trial.resolve("results.json")));
        assertTrue(all.indexOf("nothing unfair was found in the layout") > 0, all::toString);
        assertTrue(printed.contains("soak"), printed);
    }

    /** Runs each line, its folder taken to lie in the test's own, and gives what was printed with the folder as written. */
    private String run(String commands) {
        var printed = new StringBuilder();
        for (var line : commands.lines().toList()) {
            var words = line.split(" ", -1);
            assertEquals("fairtray", words[0], line);
            for (int i = 2; i < words.length; i++) {
                if ((i == 2 && !words[1].equals("archive")) || words[i].matches("[\\w.-]+\\.(zip|db|html)")) {
                    words[i] = home.resolve(words[i]).toString();
                }
            }
            var run = Run.of((Object[]) Arrays.copyOfRange(words, 1, words.length));
            assertEquals("", run.err(), line);
            assertEquals(0, run.status(), line);
            printed.append(run.out());
        }
        return printed.toString();
    }

    /** Puts each line in the place of the one line of the file that begins alike up to its first comma. */
    private static void edit(Path file, String text) throws IOException {
        var lines = new java.util.ArrayList<>(Files.readAllLines(file));
        for (var line : text.lines().toList()) {
            var start = line.substring(0, line.indexOf(','));
            var alike = lines.stream().filter(l -> l.startsWith(start)).toList();
            assertEquals(1, alike.size(), () -> line + " could stand for " + alike);
            lines.set(lines.indexOf(alike.get(0)), line);
        }
        Files.write(file, lines);
    }

    /** Readings of every tray, frame and day under the header that stands in the file now; invented. */
    private static void count(Path file) throws IOException {
        var header = Files.readAllLines(file).get(0);
        var folder = new TrialFolder(file.getParent());
        var files = folder.read();
        var truth = new InventedReadings(t -> 2, t -> 0, t -> 2.5, Map.of("tray", 0.2));
        var readings = truth.of(files.trial(), files.layout().orElseThrow(), Generator.of(3));
        folder.writeReadings(files.trial(), readings, List.of(), true);
        assertEquals(header, Files.readAllLines(file).get(0));
    }

    /** The verdict that the text explains is one that the demo gives. */
    @Test
    void theExampleOfAVerdictIsTheDemos() throws IOException {
        var example = Pattern.compile("In the demo, `([^`]+)`")
                .matcher(Files.readString(Path.of("README.md")).replace('\n', ' '))
                .results()
                .map(r -> r.group(1))
                .toList();
        assertEquals(1, example.size(), example::toString);
        var demo = Run.of("demo", home.resolve("demo"));
        assertTrue(demo.out().contains(example.get(0)), demo::out);
    }
}
