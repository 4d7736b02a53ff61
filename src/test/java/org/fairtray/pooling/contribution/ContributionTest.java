package org.fairtray.pooling.contribution;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.fairtray.Tolerance;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ContributionTest {
    /** Every data set that has counts in trays. */
    @ParameterizedTest
    @ValueSource(strings = {"crowder-seeds", "mead-germination", "stack-trial", "separation-blocks", "exact-test"})
    void bringsTheLogOddsOfTheTrialsOwnReport(String name) {
        var files = TrialFiles.of(Shared.dataset(name));
        var findings = Analysed.findings(files, AnalysisOptions.USUAL);
        var contribution = Contribution.of(files);
        for (int i = 0; i < contribution.outcomes().size(); i++) {
            assertSame(findings.outcomes().get(i), contribution.outcomes().get(i));
        }
    }

    private static void assertSame(Findings.OutcomeFindings found, Contribution.OutcomePart brought) {
        assertEquals(found.name(), brought.name());
        for (var factor : brought.factors()) {
            var effects = found.effects().stream()
                    .filter(e -> e.factor().equals(factor.name()))
                    .toList();
            if (factor.missing().isPresent()) {
                assertTrue(effects.stream().allMatch(e -> e.low() == null), factor.name());
                continue;
            }
            assertEquals(
                    effects.stream().map(Effect::level).toList(),
                    factor.levels().subList(1, factor.levels().size()));
            for (int l = 0; l < effects.size(); l++) {
                if (effects.get(l) instanceof Effect.OnRate rate) {
                    Tolerance.CLOSED_FORM.assertClose(
                            Math.log(rate.oddsRatio()), factor.estimates().get(l));
                    Tolerance.CLOSED_FORM.assertClose(
                            rate.rate(), factor.values().get(l + 1));
                    double own = (Math.log(rate.oddsHigh()) - Math.log(rate.oddsLow()));
                    assertTrue(factor.covariance().get(l).get(l) > 0 && own > 0, factor.name());
                }
            }
        }
    }

    @Test
    void comesBackFromItsText() {
        for (String name : List.of("crowder-seeds", "yates-oats", "never-made", "separation")) {
            var contribution = Contribution.of(TrialFiles.of(Shared.dataset(name)));
            var text = ContributionText.of(contribution);
            assertEquals(contribution, ContributionText.read(text), name);
            assertTrue(!text.contains("\n"), "one line");
        }
    }

    @Test
    void refusesATextThatIsNone() {
        assertThrows(IllegalArgumentException.class, () -> ContributionText.read(""));
        assertThrows(IllegalArgumentException.class, () -> ContributionText.read("[1, 2"));
    }

    @Test
    void hasWhatHoldsForAllTraysAndTheCropWithIt() {
        var plan = """
                format: 1
                trial: Cress
                crop: {name: cress}
                factors: [{name: soak, unit: h, levels: [0, 8]}]
                place: [{name: shelf, count: 3}, {name: spot, count: 4}]
                counting: {days: [5], seeds_per_frame: 40, tray_cm: [50, 25]}
                outcomes: [{name: through, kind: count, of: sown, day: 5}]
                conditions: {medium: hemp, temperature_c: 21}
                expect: {worthwhile: 0.1}
                """;
        var contribution = Contribution.of(Shared.sown(plan, 3, Map.of("soak=8", 0.6), 0.3));
        assertEquals(
                Map.of("crop", "cress", "medium", "hemp", "temperature_c", "21"),
                new TreeMap<>(contribution.conditions()));
        assertEquals(0.1, contribution.worthwhile().getAsDouble());
        assertEquals(1250, contribution.tray().orElseThrow().size());
        assertEquals(12, contribution.trays());
        assertEquals(
                List.of("0", "8"),
                contribution.outcomes().get(0).factors().get(0).levels());
        var counts = contribution.outcomes().get(0).counts().orElseThrow();
        assertEquals(12, counts.treatment().size());
        assertEquals(2, counts.place().stream().max(Integer::compare).orElseThrow(), "three shelves");
    }

    @Test
    void hasNoEstimateWhereNothingIsRepeated() {
        var plan = """
                format: 1
                trial: Two trays
                factors: [{name: soak, unit: h, levels: [0, 8]}]
                place: [{name: spot, count: 2}]
                counting: {days: [5], seeds_per_frame: 40}
                outcomes: [{name: through, kind: count, of: sown, day: 5}]
                """;
        var part = Contribution.of(Shared.sown(plan, 3, Map.of("soak=8", 0.6), 0.3))
                .outcomes()
                .get(0)
                .factors()
                .get(0);
        assertEquals(Optional.of("nothing is repeated that its levels could be held against"), part.missing());
        assertTrue(part.estimates().isEmpty());
    }

    @Test
    void sameTrialSameContribution() {
        var files = TrialFiles.of(Shared.dataset("stack-trial"));
        assertEquals(Contribution.of(files), Contribution.of(files));
        var plan = files.trial();
        assertEquals(
                Randomisation.of(plan).draw(Generator.of(1)),
                Randomisation.of(plan).draw(Generator.of(1)));
    }
}
