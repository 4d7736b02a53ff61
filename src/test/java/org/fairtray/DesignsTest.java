package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.audit.Audit;
import org.fairtray.design.DesignName;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.Structure;
import org.fairtray.files.TrialFiles;
import org.fairtray.report.Report;
import org.fairtray.sizing.InventedReadings;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every ready plan of designs/ is laid out, audited, filled with invented readings and analysed, with three seeds. */
class DesignsTest {
    private static final Path FOLDER = Path.of("designs");

    record Case(String plan, long seed) {
        Trial trial() throws IOException {
            return TrialFiles.of(Map.of("plan.yaml", Files.readAllBytes(FOLDER.resolve(plan))))
                    .trial();
        }
    }

    static List<Case> cases() throws IOException {
        var cases = new ArrayList<Case>();
        try (Stream<Path> plans = Files.list(FOLDER)) {
            plans.map(p -> p.getFileName().toString()).sorted().forEach(p -> {
                for (long seed : new long[] {1, 2, 3}) {
                    cases.add(new Case(p, seed));
                }
            });
        }
        return cases;
    }

    @ParameterizedTest
    @MethodSource("cases")
    void isLaidOutFairlyAndAnalysed(Case one) throws IOException {
        var trial = one.trial();
        var layout = Randomisation.of(trial).draw(Generator.of(one.seed));
        assertEveryTreatmentEquallyOften(one, trial, layout);
        assertEquals(
                List.of(), Audit.of(trial, layout, Seal.State.HOLDS, List.of()).findings());

        var sealing = new Sealing(Seal.State.HOLDS, Optional.empty(), "", "");
        var findings = Analysis.of(trial, layout, readings(trial, layout, one.seed), sealing, "test");
        var ofTheLayout = findings.warnings().stream()
                .filter(w -> !w.kind().equals("tests disagree"))
                .toList();
        assertEquals(List.of(), ofTheLayout);
        assertEquals(trial.outcomes().size(), findings.outcomes().size());
        for (var outcome : findings.outcomes()) {
            assertEquals(layout.trays().size(), outcome.trays());
            assertEquals(trial.factors().size(), outcome.verdicts().size());
            assertEquals(holdsFullSets(one) || isFraction(one), outcome.anova().orthogonal(), outcome.name());
            outcome.tests().forEach(t -> assertTrue(t.p() != null && t.p() >= 0 && t.p() <= 1, t::toString));
        }
        assertTrue(Report.of(trial, layout, findings).html().endsWith("</html>\n"), "a whole page");
    }

    @ParameterizedTest
    @MethodSource("cases")
    void isSized(Case one) throws IOException {
        var trial = one.trial();
        var sizing = SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(one.seed)))
                .sizing();
        for (var factor : trial.factors()) {
            var power = sizing.terms().stream()
                    .filter(t -> t.term().equals(factor.name()))
                    .findFirst()
                    .orElseThrow()
                    .power();
            boolean counted = trial.outcomes().get(0).match(c -> true, m -> false);
            assertEquals(counted, power != null, factor.name());
            assertTrue(power == null || (power > 0.05 && power <= 1), factor.name() + " " + power);
        }
    }

    /** Whether nothing had to be searched for. */
    private static boolean holdsFullSets(Case one) throws IOException {
        return Randomisation.of(one.trial())
                .draw(Generator.of(one.seed), share -> {})
                .qualities()
                .isEmpty();
    }

    /** The plan that is made to hold only a part of all combinations. */
    private static boolean isFraction(Case one) {
        return one.plan.equals("first-screening.yaml");
    }

    private static void assertEveryTreatmentEquallyOften(Case one, Trial trial, Layout layout) {
        var trays = layout.trays().stream().collect(Collectors.groupingBy(t -> t.treatment(), Collectors.counting()));
        assertEquals(
                isFraction(one) ? layout.trays().size() : trial.treatments().size(), trays.size());
        assertEquals(1, trays.values().stream().distinct().count(), trays::toString);
        for (var factor : trial.factors()) {
            var levels = layout.trays().stream()
                    .collect(Collectors.groupingBy(t -> t.treatment().level(factor.name()), Collectors.counting()));
            assertEquals(factor.levels().size(), levels.size(), factor.name());
            assertEquals(1, levels.values().stream().distinct().count(), levels::toString);
        }
    }

    private static List<Reading> readings(Trial trial, Layout layout, long seed) {
        var truth = new InventedReadings(t -> 2, t -> -0.3, t -> 2.5, Map.of("tray", 0.2));
        return truth.of(trial, layout, Generator.of(seed)).stream()
                .map(r -> Trials.withMeasures(trial, r))
                .toList();
    }

    @ParameterizedTest
    @MethodSource("cases")
    void anotherSeedGivesAnotherLayout(Case one) throws IOException {
        var randomisation = Randomisation.of(one.trial());
        assertNotEquals(randomisation.draw(Generator.of(one.seed)), randomisation.draw(Generator.of(one.seed + 100)));
    }

    @Test
    void everyPlanIsTheDesignItIsMeantFor() throws IOException {
        var names = new LinkedHashMap<String, String>();
        for (var one : cases()) {
            var layout = Randomisation.of(one.trial()).draw(Generator.of(one.seed));
            names.put(
                    one.plan,
                    DesignName.of(Structure.of(one.trial(), layout.trays())).name());
        }
        assertEquals(
                Map.ofEntries(
                        Map.entry("dark-days.yaml", "randomised blocks"),
                        Map.entry("six-mats-in-stacks-of-four.yaml", "incomplete blocks"),
                        Map.entry("first-screening.yaml", "fractional factorial"),
                        Map.entry("follow-up.yaml", "randomised blocks"),
                        Map.entry("four-mats-by-height.yaml", "Latin square"),
                        Map.entry("how-heavy.yaml", "completely randomised"),
                        Map.entry("how-long-to-soak.yaml", "completely randomised"),
                        Map.entry("light-by-watering.yaml", "strip-plot"),
                        Map.entry("mat-as-good-as.yaml", "randomised blocks"),
                        Map.entry("paper-test.yaml", "randomised blocks"),
                        Map.entry("plain.yaml", "randomised blocks"),
                        Map.entry("seed-lots.yaml", "randomised blocks"),
                        Map.entry("shelf-light.yaml", "split-plot"),
                        Map.entry("soak-by-mat.yaml", "randomised blocks"),
                        Map.entry("soak-or-not.yaml", "randomised blocks"),
                        Map.entry("soaking-jars.yaml", "randomised blocks"),
                        Map.entry("sowing-density.yaml", "randomised blocks"),
                        Map.entry("ten-growers.yaml", "randomised blocks"),
                        Map.entry("weight-by-soak.yaml", "split-plot")),
                names);
    }

    @Test
    void everyPlanSaysWhereItIsFrom() throws IOException {
        for (var one : cases()) {
            var text = Files.readString(FOLDER.resolve(one.plan));
            assertTrue(one.plan.equals("plain.yaml") || text.contains("\n# Source of the plan: "), one.plan);
        }
    }
}
