package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.PlanText;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The commonest trial there is, a single stack with one tray of each, and what becomes of it. */
class FairVersionTest {
    private static TrialFiles stack(String expect) {
        var plan = "{format: 1, trial: Four crops, factors: [{name: crop, levels: [pea, beet, rocket, cress]}],"
                + " place: [{name: stack, count: 1}, {name: layer, count: 4}], counting: {days: [4], seeds_per_frame: 100},"
                + " outcomes: [{name: germinated, kind: count, day: 4}]" + expect + "}";
        return TrialFiles.of(Map.of(
                "plan.yaml", plan.getBytes(StandardCharsets.UTF_8),
                "layout.csv",
                        "tray,stack,layer,crop\nA,1,1,pea\nB,1,2,beet\nC,1,3,rocket\nD,1,4,cress\n"
                                .getBytes(StandardCharsets.UTF_8)));
    }

    @Test
    void oneStackOfOneTrayEachGetsAdvice() {
        var files = stack("");
        var audit = Audit.of(files.trial(), files.layout().orElseThrow(), Seal.State.ABSENT, List.of());
        assertEquals(
                List.of("no replication", "not randomised"),
                audit.findings().stream().map(Audit.Finding::kind).toList());
        assertEquals(
                "One tray of each: what it can tell, and what it can't",
                audit.advice().get(0));
        assertEquals(
                "The fair version of this trial has 16 places (shelf 2 / stack 2 / layer 4), each treatment in every stack.",
                audit.advice().get(audit.advice().size() - 1));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "''; 16",
                "', expect: {control_rate: 0.5, worthwhile: 0.25, tray_correlation: 0.05}'; 24",
                "', expect: {control_rate: 0.5, worthwhile: 0.02, tray_correlation: 0.05}'; 16"
            })
    void theFairVersionIsFairAndLargeEnoughWhereItCanBe(String expect, int trays) {
        var files = stack(expect);
        var fair =
                Audit.fairVersion(files.trial(), files.layout().orElseThrow()).orElseThrow();
        var read = TrialFiles.of(
                        Map.of("plan.yaml", PlanText.of(fair, List.of()).getBytes(StandardCharsets.UTF_8)))
                .trial();
        assertEquals(fair, read);
        var layout = Randomisation.of(read).draw(Generator.of(5));
        assertEquals(trays, layout.trays().size());
        var found = Audit.of(read, layout, Seal.State.HOLDS, List.of()).findings();
        assertTrue(
                found.stream().allMatch(f -> f.kind().equals("too small") && expect.contains("0.02")), found::toString);
    }

    @Test
    void whereTreatmentsAreRepeatedThereIsNone() {
        var files = stack("");
        var fair =
                Audit.fairVersion(files.trial(), files.layout().orElseThrow()).orElseThrow();
        var layout = Randomisation.of(fair).draw(Generator.of(5));
        assertTrue(Audit.fairVersion(fair, layout).isEmpty());
        assertEquals(
                List.of(), Audit.of(fair, layout, Seal.State.HOLDS, List.of()).advice());
    }
}
