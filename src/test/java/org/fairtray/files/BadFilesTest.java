package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every folder of bad-files is a trial with faults, and problems.txt what is said of them, word for word. */
class BadFilesTest {
    private static final Path FOLDERS = Path.of("src/test/resources/bad-files");

    static List<String> cases() throws IOException {
        try (Stream<Path> folders = Files.list(FOLDERS)) {
            return folders.map(f -> f.getFileName().toString()).sorted().toList();
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("cases")
    void saysWhatIsWrong(String name) throws IOException {
        var folder = FOLDERS.resolve(name);
        var thrown = assertThrows(ProblemsException.class, () -> new TrialFolder(folder).read());
        assertEquals(Files.readString(folder.resolve("problems.txt")), thrown.getMessage() + "\n");
    }

    @Test
    void everyCaseSaysEachProblemInOneLine() throws IOException {
        for (var name : cases()) {
            var lines = Files.readAllLines(FOLDERS.resolve(name).resolve("problems.txt"));
            assertTrue(
                    lines.stream().allMatch(l -> l.matches("\\S.*: found .+; expected .+")), () -> name + ": " + lines);
        }
    }
}
