package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.IntStream;
import org.fairtray.trial.Seal;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** However a file is damaged, it is either read or its problems are told, each in one line; nothing else is thrown. */
class DamagedFilesTest {
    private static final Path GOOD = Path.of("src/test/resources/good-files");
    private static final String[] SCRAPS = {
        "\n",
        "\t",
        ",",
        ";",
        ":",
        ": ",
        "\"",
        "'",
        "[",
        "]",
        "{",
        "}",
        "- ",
        "#",
        "&a ",
        "*a",
        "!!x ",
        "?",
        "|",
        ">",
        "~",
        "null",
        "-1",
        "0",
        "1e999",
        "99999999999",
        "1.5",
        "\u0000",
        "\u00a0",
        "\ufeff",
        "\u2028",
        "---\n",
        "sep=;\n",
        "%YAML 1.1\n",
        "<<: "
    };

    static IntStream seeds() {
        return IntStream.range(0, 150);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void damageIsToldInWords(int seed) throws IOException {
        var random = new Random(seed);
        var folder = GOOD.resolve(List.of("every-key", "spreadsheet-habits").get(random.nextInt(2)));
        var contents = contents(folder);
        for (var name : List.copyOf(contents.keySet())) {
            // The plan mostly stays whole, since a broken one hides what is wrong with the rest.
            if (!name.equals("plan.yaml") || contents.size() == 2 || random.nextInt(10) == 0) {
                contents.put(name, damaged(contents.get(name), random));
            }
        }
        try {
            var files = TrialFiles.of(contents);
            assertEquals(contents.containsKey("layout.csv"), files.layout().isPresent());
        } catch (ProblemsException e) {
            assertTrue(e.problems().stream().allMatch(DamagedFilesTest::isPlain), e.getMessage());
        }
    }

    private static boolean isPlain(Problem problem) {
        return problem.describe().lines().count() == 1
                && problem.line() >= 0
                && !problem.found().isBlank()
                && !problem.expected().isBlank();
    }

    private static Map<String, byte[]> contents(Path folder) throws IOException {
        var contents = new HashMap<String, byte[]>();
        for (var name : List.of("plan.yaml", "layout.csv", "readings.csv")) {
            if (Files.exists(folder.resolve(name))) {
                contents.put(name, Files.readAllBytes(folder.resolve(name)));
            }
        }
        var seal = new Seal(
                "0".repeat(64),
                "f".repeat(64),
                Optional.empty(),
                Optional.empty(),
                1,
                "g",
                List.of(),
                "2026-03-01",
                "0.1.0");
        contents.put("seal.json", SealFile.text(seal).getBytes(StandardCharsets.UTF_8));
        return contents;
    }

    /** Bytes with one to four stretches cut out, doubled or written over. */
    private static byte[] damaged(byte[] bytes, Random random) {
        var now = bytes;
        for (int i = 0; i <= random.nextInt(4); i++) {
            int from = random.nextInt(now.length + 1);
            int to = Math.min(now.length, from + random.nextInt(6));
            var out = new ByteArrayOutputStream();
            out.write(now, 0, from);
            if (random.nextInt(8) == 0) {
                out.write(random.nextInt(256));
            } else {
                out.writeBytes(SCRAPS[random.nextInt(SCRAPS.length)].getBytes(StandardCharsets.UTF_8));
            }
            int rest = random.nextInt(3) == 0 ? from : to;
            out.write(now, rest, now.length - rest);
            now = out.toByteArray();
        }
        return now;
    }
}
