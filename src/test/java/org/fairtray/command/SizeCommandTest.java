package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What size says of a plan, drawn or not, and where there is nothing to say. */
class SizeCommandTest {
    private static final String STACKS = """
            format: 1
            trial: Cover on stacks
            factors:
              - {name: soak, unit: h, levels: [0, 8]}
              - {name: cover, unit: kg, levels: [0, 3], applied_to: stack}
            place: [{name: shelf, count: 2}, {name: stack, count: 4}, {name: spot, count: 4}]
            counting: {days: [6], seeds_per_frame: 100}
            outcomes: [{name: through, kind: count, of: sown, day: 6}]
            """;

    @TempDir
    private Path home;

    private Path folder;

    @BeforeEach
    void folder() throws IOException {
        folder = Files.createDirectory(home.resolve("trial"));
    }

    private void plan(String text) throws IOException {
        Files.writeString(folder.resolve("plan.yaml"), text);
    }

    private static String bench(int trays, String more) {
        return """
                format: 1
                trial: On the bench
                factors: [{name: soak, levels: [0, 8]}]
                place: [{name: spot, count: %d}]
                counting: {days: [6], seeds_per_frame: 50}
                outcomes: [{name: through, kind: count, day: 6}]
                %s
                """.formatted(trays, more);
    }

    @Test
    void saysItForPeopleWithinEightyLetters() throws IOException {
        plan(STACKS + "expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.3}}\n");
        var run = Run.of("size", folder, "--simulations", 0);
        assertEquals("", run.err());
        assertEquals(Fairtray.DONE, run.status());
        assertTrue(
                run.out()
                        .startsWith(
                                "Cover on stacks\nthrough: 32 trays, 8 of each treatment, 100 seeds counted in each."
                                        + "\n\nToo small to see a change of 20 points in 80 % of such trials for cover."),
                run::out);
        assertTrue(run.out().contains("cover: F with 1 and 5 degrees of freedom in the stratum stack"), run::out);
        assertEquals(List.of(), run.out().lines().filter(l -> l.length() > 80).toList());
        assertEquals(Set.of("plan.yaml", "size.html"), Set.of(folder.toFile().list()), "the page alone is written");
    }

    @Test
    void jsonHasItsKeys() throws IOException {
        plan(STACKS + "expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.3}}\n");
        var json = Run.of("size", folder, "--json", "--simulations", 0).json();
        assertEquals(32, json.get("trays").getAsInt());
        assertEquals(8, json.get("replicates").getAsInt());
        assertEquals(
                List.of("soak", "cover", "soak × cover"),
                json.getAsJsonArray("closed_form").asList().stream()
                        .map(t -> t.getAsJsonObject().get("term").getAsString())
                        .toList());
        var smallest = json.getAsJsonArray("smallest_change").get(1).getAsJsonObject();
        assertEquals("cover", smallest.get("factor").getAsString());
        assertEquals(0.8, smallest.get("power").getAsDouble());
        double difference = smallest.get("difference").getAsDouble();
        assertTrue(difference > 0.2 && difference < 0.3, () -> "" + difference);
        assertTrue(json.get("advice").getAsString().startsWith("Too small"));
    }

    /** A layout that is there counts, not the one that would be drawn. */
    @Test
    void theLayoutThatIsThereIsSized() throws IOException {
        plan(bench(8, "expect: {control_rate: 0.4, worthwhile: 0.2}"));
        assertEquals(
                8,
                Run.of("size", folder, "--json", "--simulations", 0)
                        .json()
                        .get("trays")
                        .getAsInt());
        Files.writeString(folder.resolve("layout.csv"), "tray,spot,soak\nA,1,0\nB,2,8\nC,3,0\nD,4,8\nE,5,8\n");
        var json = Run.of("size", folder, "--json", "--simulations", 0).json();
        assertEquals(5, json.get("trays").getAsInt());
        assertTrue(json.get("replicates").isJsonNull());
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0.2, control_rate is 0:",
        "1, 0.2, control_rate is 1:",
        "0.9, 0.1, 'control_rate and worthwhile make 100 %, and no rate can rise that far.'",
        "0.9, 0.3, 'control_rate and worthwhile make 120 %, and no rate can rise that far.'"
    })
    void impossibleRatesAreNamed(String control, String worthwhile, String said) throws IOException {
        plan(bench(8, "expect: {control_rate: " + control + ", worthwhile: " + worthwhile + "}"));
        var run = Run.of("size", folder, "--simulations", 0);
        assertEquals(Fairtray.DONE, run.status());
        assertTrue(run.out().replace("\n", " ").contains("Mend expect in the plan first. " + said), run::out);
        assertNothingIsKnown();
    }

    private void assertNothingIsKnown() {
        var json = Run.of("size", folder, "--json", "--simulations", 0).json();
        json.getAsJsonArray("terms")
                .forEach(t -> assertTrue(t.getAsJsonObject().get("power").isJsonNull()));
        json.getAsJsonArray("smallest_change")
                .forEach(t -> assertTrue(t.getAsJsonObject().get("difference").isJsonNull()));
    }

    @ParameterizedTest
    @CsvSource({
        "'A,1,0\n', Every tray got the same soak",
        "'A,1,0\nB,2,8\n', No tray with the same treatment is repeated"
    })
    void whereNothingIsRepeatedThatIsSaid(String rows, String said) throws IOException {
        plan(bench(2, ""));
        Files.writeString(folder.resolve("layout.csv"), "tray,spot,soak\n" + rows);
        var run = Run.of("size", folder, "--simulations", 0);
        assertTrue(run.out().replace("\n", " ").contains("Nothing can test soak: " + said), run::out);
        assertFalse(run.out().contains("Mind:"), "it is said once: " + run.out());
        assertNothingIsKnown();
    }

    @Test
    void ofAMeasureNothingIsWorkedOut() throws IOException {
        plan(bench(8, "").replace("{name: through, kind: count, day: 6}", "{name: height_mm, kind: measure, day: 6}"));
        var run = Run.of("size", folder, "--simulations", 0);
        assertTrue(run.out().contains("\nThe first outcome is a measure, and sizes are worked out for counts only.\n"));
        assertNothingIsKnown();
    }

    @Test
    void aPlanThatDoesNotFitIsRefusedAsLayRefusesIt() throws IOException {
        plan(bench(1, ""));
        var size = Run.of("size", folder, "--simulations", 0);
        var lay = Run.of("lay", folder);
        assertEquals(Fairtray.PROBLEM, size.status());
        assertEquals(lay.err(), size.err());
        assertEquals("", size.out());
    }

    @Test
    void withoutExpectTheUsualIsTakenAndSaidWithItsSource() throws IOException {
        plan(STACKS);
        var run = Run.of("size", folder, "--simulations", 0);
        assertTrue(
                run.out().contains("\n  tray_correlation 0.05: cautious; common practice, no source. Carefully run\n"),
                run::out);
        assertTrue(run.out().contains("\n  place_sd.stack 0.2: a guess, no source:"), run::out);
    }

    /** Rates near 0: no number is lost, and it says that formulae are rough there. */
    @Test
    void rareCountsAreRough() throws IOException {
        plan(bench(8, "expect: {control_rate: 0.01, worthwhile: 0.02}"));
        assertTrue(Run.of("size", folder, "--simulations", 0)
                .out()
                .contains("Mind: Fewer than five are expected to come out"));
    }

    /** Powers are then those of invented trials, the same with every run, beside the formulae that say much the same. */
    @Test
    void inventedTrialsGiveEveryWayOfJudging() throws IOException {
        plan(bench(12, "expect: {control_rate: 0.35, worthwhile: 0.2, tray_correlation: 0.05}"));
        var run = Run.of("size", folder, "--simulations", 300, "--json");
        var json = run.json();
        assertEquals(300, json.get("simulations").getAsInt());
        var terms = json.getAsJsonArray("terms").asList().stream()
                .map(t -> t.getAsJsonObject())
                .toList();
        assertEquals(
                List.of("anova", "logistic", "verdict"),
                terms.stream().map(t -> t.get("by").getAsString()).toList());
        double formula = json.getAsJsonArray("closed_form")
                .get(0)
                .getAsJsonObject()
                .get("power")
                .getAsDouble();
        assertTrue(terms.get(0).get("low").getAsDouble() < formula, run::out);
        assertTrue(terms.get(0).get("high").getAsDouble() > formula, run::out);
        assertEquals(run, Run.of("size", folder, "--simulations", 300, "--json"));
        assertFalse(run.equals(Run.of("size", folder, "--simulations", 300, "--json", "--seed", 2)));
        var text = Run.of("size", folder, "--simulations", 300).out();
        assertTrue(text.contains("\nThe same by up to 300 invented trials each, analysed as analyse does\n"), text);
        assertEquals(List.of(), text.lines().filter(l -> l.length() > 80).toList());
    }

    /** Few trays: the likelihood ratio finds more than the analysis of variance, and it is said why. */
    @Test
    void whatDiffersIsExplained() throws IOException {
        plan(bench(6, "expect: {control_rate: 0.35, worthwhile: 0.3, tray_correlation: 0.05}"));
        var text = Run.of("size", folder, "--simulations", 300).out().replace("\n", " ");
        assertTrue(text.contains("The likelihood ratio of the mixed fit finds soak more often"), text);
    }

    @Test
    void fewerThanNoTrialsAreRefused() throws IOException {
        plan(bench(8, ""));
        var run = Run.of("size", folder, "--simulations", -1);
        assertEquals(Fairtray.USAGE, run.status());
        assertTrue(run.err().startsWith("--simulations -1: expected a number of trials, 0 or more"), run::err);
    }
}
