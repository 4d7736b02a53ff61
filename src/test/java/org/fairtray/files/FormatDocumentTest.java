package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** docs/file-formats.md says what the readers know, and its example is a plan. */
class FormatDocumentTest {
    private static final Path DOCUMENT = Path.of("docs/file-formats.md");
    private static final Pattern CODE = Pattern.compile("`([^`]+)`");
    private static final Map<String, List<String>> KEYS = keys();

    private static Map<String, List<String>> keys() {
        var keys = new LinkedHashMap<String, List<String>>();
        keys.put("## plan.yaml", PlanFile.KEYS);
        keys.put("### crop", ExpectationReader.CROP_KEYS);
        keys.put("### factors", FactorReader.KEYS);
        keys.put("### place", PlaceReader.KEYS);
        keys.put("### batches", FactorReader.BATCH_KEYS);
        keys.put("### counting", CountingReader.KEYS);
        keys.put("### outcomes", OutcomeReader.KEYS);
        keys.put("### analysis", ExpectationReader.ANALYSIS_KEYS);
        keys.put("### expect", ExpectationReader.EXPECT_KEYS);
        keys.put("### costs", ExpectationReader.COST_KEYS);
        keys.put("### sowing", HandlingReader.SOWING_KEYS);
        keys.put("### rotation", HandlingReader.ROTATION_KEYS);
        keys.put("### handling", HandlingReader.HANDLING_KEYS);
        keys.put("## seal.json", SealFile.KEYS);
        keys.put("## Names that mean the same", CommonNamesFile.KEYS);
        return keys;
    }

    static List<String> headings() {
        return List.copyOf(KEYS.keySet());
    }

    @ParameterizedTest
    @MethodSource("headings")
    void tableHasEveryKeyAndNoOther(String heading) throws IOException {
        assertEquals(new TreeSet<>(KEYS.get(heading)), new TreeSet<>(firstColumn(section(heading))));
    }

    private static List<String> section(String heading) throws IOException {
        var lines = Files.readAllLines(DOCUMENT);
        var from = lines.subList(lines.indexOf(heading) + 1, lines.size());
        return from.stream()
                .takeWhile(l -> !l.startsWith("## ") && !l.startsWith("### "))
                .toList();
    }

    private static List<String> firstColumn(List<String> lines) {
        var keys = new ArrayList<String>();
        lines.stream()
                .filter(l -> l.startsWith("| `"))
                .map(l -> l.split("\\|", -1)[1])
                .forEach(cell -> {
                    var code = CODE.matcher(cell);
                    while (code.find()) {
                        keys.add(code.group(1));
                    }
                });
        return keys;
    }

    @Test
    void examplePlanIsReadAndUsesEveryKey() throws IOException {
        var text = Files.readString(DOCUMENT);
        int start = text.indexOf("```yaml\n") + "```yaml\n".length();
        var plan = text.substring(start, text.indexOf("```", start));
        var trial = TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
        assertEquals("Cress under three covers", trial.title());
        KEYS.entrySet().stream()
                .filter(e ->
                        !List.of("## seal.json", "## Names that mean the same").contains(e.getKey()))
                .flatMap(e -> e.getValue().stream())
                .forEach(key -> assertTrue(plan.contains(key + ":"), key));
    }

    @Test
    void exampleOfAProblemIsWhatIsSaid() throws IOException {
        var shown = Files.readAllLines(DOCUMENT).stream()
                .filter(l -> l.startsWith("plan.yaml, line"))
                .toList();
        var said = Files.readAllLines(Path.of("src/test/resources/bad-files/plan-unknown-keys/problems.txt"));
        assertEquals(List.of(said.get(0)), shown);
    }

    @ParameterizedTest
    @ValueSource(strings = {"tray", "day", "frame", "sown", "germinated", "through", "note", "by", "time"})
    void reservedNamesAreTold(String name) throws IOException {
        assertTrue(TakenNames.RESERVED.contains(name));
        var telling = String.join(" ", section("## plan.yaml"));
        assertTrue(telling.contains("`" + name + "`"), telling);
        assertEquals(9, TakenNames.RESERVED.size());
    }

    @Test
    void wordsForAChoiceAreTold() throws IOException {
        var text = Files.readString(DOCUMENT);
        var words = List.of("cumulative", "new", "count", "measure", "angular", "proportion", "logit");
        words.forEach(word -> assertTrue(text.contains("`" + word + "`"), word));
    }
}
