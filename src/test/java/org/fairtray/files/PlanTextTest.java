package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.trial.Trial;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every plan of the repository is written and read back as the same trial. */
class PlanTextTest {
    static List<Path> plans() throws IOException {
        var plans = new ArrayList<Path>();
        for (var folder : List.of("designs", "datasets", "src/test/resources/good-files")) {
            try (Stream<Path> files = Files.walk(Path.of(folder))) {
                files.filter(f -> f.toString().endsWith(".yaml")).sorted().forEach(plans::add);
            }
        }
        return plans;
    }

    private static Trial read(byte[] plan) {
        return TrialFiles.of(Map.of("plan.yaml", plan)).trial();
    }

    @ParameterizedTest
    @MethodSource("plans")
    void isReadBackAsItWas(Path plan) throws IOException {
        var trial = read(Files.readAllBytes(plan));
        var text = PlanText.of(trial, List.of("A remark."));
        assertTrue(text.startsWith("# A remark.\nformat: 1\n"), text);
        assertEquals(trial, read(text.getBytes(StandardCharsets.UTF_8)));
    }

    @ParameterizedTest
    @MethodSource("plans")
    void hostileNamesAreReadBackToo(Path plan) throws IOException {
        var trial = read(Files.readAllBytes(plan));
        var hostile = "a: \"b\" \\ # {c} [d], 'e' & *f ! | > % @ ` ü 種 🌱 yes";
        var renamed = new Trial(
                hostile,
                Optional.of(hostile),
                trial.crop(),
                trial.factors(),
                trial.control(),
                trial.never(),
                trial.place(),
                Map.of("germinated", hostile),
                trial.batches(),
                trial.replicates(),
                trial.counting(),
                trial.outcomes(),
                trial.choices(),
                trial.expectations(),
                trial.costs(),
                trial.gramsPerTray(),
                trial.rotation(),
                trial.uncoverDay(),
                trial.restrictions(),
                trial.conditions());
        assertEquals(renamed, read(PlanText.of(renamed, List.of()).getBytes(StandardCharsets.UTF_8)));
    }
}
