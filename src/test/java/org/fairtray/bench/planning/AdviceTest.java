package org.fairtray.bench.planning;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.fairtray.audit.Audit;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is said of plans while they are written: the same numbers as size and audit say, and never an exception. */
class AdviceTest {
    private static final Path FOLDER = Path.of("designs");

    static List<String> designs() throws IOException {
        try (Stream<Path> plans = Files.list(FOLDER)) {
            return plans.map(p -> p.getFileName().toString()).sorted().toList();
        }
    }

    private static String design(String name) throws IOException {
        return Files.readString(FOLDER.resolve(name));
    }

    private static String plain() throws IOException {
        return design("plain.yaml");
    }

    private static Trial trial(String text) {
        return TrialFiles.of(Map.of("plan.yaml", text.getBytes(StandardCharsets.UTF_8)))
                .trial();
    }

    @ParameterizedTest
    @MethodSource("designs")
    void saysOfEveryReadyPlanWhatSizeAndAuditSay(String name) throws IOException {
        var trial = trial(design(name));
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        var sizing = SizedLayout.of(trial, layout).sizing();
        var advice = Advice.of(design(name));

        assertEquals(List.of(), advice.problems());
        assertEquals(List.of(), advice.findings());
        assertEquals(
                Audit.ofPlan(trial, layout).findings().size(), advice.findings().size());
        assertEquals(layout.trays().size(), advice.trays());
        assertEquals(
                trial.factorNames(), advice.power().stream().map(Power::factor).toList());
        for (var power : advice.power()) {
            var closed = sizing.closedForm().stream()
                    .filter(c -> c.term().equals(power.factor()))
                    .findFirst();
            assertEquals(closed.map(c -> c.power()).orElse(null), power.power());
            assertEquals(closed.map(c -> c.smallestChange()).orElse(null), power.smallest());
        }
    }

    @Test
    void saysThePlainPlanInWords() throws IOException {
        var advice = Advice.of(plain());
        assertEquals("randomised blocks", advice.design());
        assertEquals(
                "A randomised blocks layout: soak on 12 × tray; differences between shelf (3) are set aside.",
                advice.sentence());
        assertEquals(List.of(new Advice.Applied("soak", "tray", "h", List.of("0", "8"))), advice.applied());
        assertEquals(List.of(new Advice.Level("shelf", 3, null), new Advice.Level("spot", 4, null)), advice.place());
        assertEquals(2, advice.treatments());
        assertNull(advice.cost());
        assertNull(advice.minutesADay());
        assertEquals(9, advice.cautions().size());
    }

    @Test
    void addsUpWhatThePlanGivesAPriceOf() throws IOException {
        var advice =
                Advice.of(plain() + "costs: {currency: EUR, tray: 0.5, labour_per_hour: 15, minutes_per_frame: 2}\n");
        assertEquals(
                new Advice.Cost(
                        "EUR",
                        78,
                        List.of(
                                new Advice.Cost.Item("12 trays with their medium", 6),
                                new Advice.Cost.Item("counting on 6 days", 72))),
                advice.cost());
        assertEquals(48, advice.minutesADay());
        assertTrue(advice.notes().contains("Not in the costs, because the plan doesn’t say it: seed (seed_per_g)."));
    }

    @Test
    void weighsTheSeedOfAllTrays() throws IOException {
        var advice = Advice.of(plain() + "crop: {name: beet, thousand_seed_weight_g: 15}\n");
        assertEquals(12 * 100 * 0.015, advice.seedGrams(), 1e-9);
    }

    @Test
    void tellsTheLineOfAProblem() throws IOException {
        var advice = Advice.of(plain().replace("question:", "qestion:"));
        assertEquals(1, advice.problems().size());
        var problem = advice.problems().get(0);
        assertEquals(5, problem.line());
        assertEquals("question", problem.nearest());
        assertTrue(problem.sentence().startsWith("plan.yaml, line 5: found unknown key 'qestion'; expected"));
        assertNull(advice.trays());
    }

    @Test
    void tellsThePlaceThatDoesNotFitAndStillShowsIt() throws IOException {
        var text = plain().replace("levels: [0, 8]}", "levels: [0, 8], applied_to: shelf}")
                .replace("{name: shelf, count: 3}", "{name: shelf, count: 1}");
        var advice = Advice.of(text);
        assertEquals(1, advice.problems().size());
        assertEquals(
                "place:", text.lines().toList().get(advice.problems().get(0).line() - 1));
        assertEquals(4, advice.places());
        assertEquals(List.of(), advice.power());
    }

    @Test
    void findsWhatIsUnfairInAnyLayoutWithoutSwappingTraysThatAreNotDrawn() throws IOException {
        var advice = Advice.of(plain().replace("levels: [0, 8]}", "levels: [0, 8], applied_to: shelf}")
                .replace("{name: shelf, count: 3}", "{name: shelf, count: 2}"));
        assertEquals(
                List.of("no replication"),
                advice.findings().stream().map(Advice.Finding::kind).toList());
        assertFalse(advice.findings().get(0).remedy().contains("swap"));
        assertNull(advice.power().get(0).power());
        assertTrue(advice.power().get(0).sentence().startsWith("Nothing can test soak:"));
    }

    @Test
    void saysWhatTakesTooLong() throws IOException {
        var advice = Advice.of(plain().replace("{name: spot, count: 4}", "{name: spot, count: 300000}"));
        assertEquals(
                List.of("Its design, power, costs and faults take too long to work out while you type."
                        + " Save the plan, and run fairtray size and fairtray audit on its folder."),
                advice.notes());
        assertEquals(900_000, advice.places());
        assertNull(advice.trays());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "\u0000",
                "a: [",
                "- - - -",
                "format: 1\n---\nformat: 1",
                "&a [*a, *a]",
                "\t",
                "%YAML 9\n",
                "format: 1\nplace: 3\nfactors: {}\ncounting: []\noutcomes: no",
                "{{{{{{{{{{{{{{{{{{{{{{{{{{{{",
                "\ud800"
            })
    void saysWhatIsWrongWithAnyText(String text) {
        var advice = Advice.of(text);
        assertFalse(advice.problems().isEmpty());
        assertTrue(advice.problems().stream().noneMatch(p -> p.sentence().isBlank()));
    }

    @Test
    void answersSixHundredTrays() throws IOException {
        var advice = Advice.of(plain().replace("{name: spot, count: 4}", "{name: spot, count: 200}"));
        assertEquals(600, advice.trays());
        assertEquals(
                "Would see a change of 15 points in nearly all trials.",
                first(advice.power().get(0).sentence()));
    }

    @Test
    void saysThePowerThatTheAuditSaysWhatItRestsOnAndOnce() throws IOException {
        var silent = plain().replace("seeds_per_frame: 50", "seeds_per_frame: 5");
        var guess = "Reckoned with tray_correlation 0.05, place_sd.shelf 0.20, which the plan doesn't say.";
        var advice = Advice.of(silent);
        var power = advice.power().get(0);
        var finding = advice.findings().get(0);
        assertEquals("too small", finding.kind());
        assertEquals(0.8, power.wanted());
        assertTrue(power.sentence().endsWith(" " + guess), power.sentence());
        assertTrue(finding.sentence().endsWith(" " + guess), finding.sentence());
        var told = "would be seen in about " + (int) Math.floor(100 * power.power()) + " % of such trials";
        assertTrue(finding.sentence().contains(told), () -> told + " not in " + finding.sentence());

        var said = silent.replace(
                "worthwhile: 0.15}", "worthwhile: 0.15, tray_correlation: 0.05, place_sd: {shelf: 0.2}}");
        var same = Advice.of(said);
        assertEquals(power.power(), same.power().get(0).power());
        assertFalse(same.power().get(0).sentence().contains("Reckoned"));
        assertFalse(same.findings().get(0).sentence().contains("Reckoned"));
    }

    @Test
    void callsNoPlanTooSmallByAGuess() throws IOException {
        var advice = Advice.of(plain());
        assertTrue(advice.power().get(0).power() < advice.power().get(0).wanted());
        assertEquals(List.of(), advice.findings());
        assertTrue(
                advice.notes()
                        .contains(
                                "Too few trays were named only where they are too few even if trays treated alike differ by"
                                        + " their seeds alone: expect doesn't say tray_correlation (0.05 is cautious; common practice,"
                                        + " no source)."),
                advice.notes().toString());
    }

    private static String first(String sentences) {
        return sentences.substring(0, sentences.indexOf('.') + 1);
    }
}
