package org.fairtray;

import static org.fairtray.Edges.MAT;
import static org.fairtray.Edges.SOAK;
import static org.fairtray.Trials.HEIGHT;
import static org.fairtray.Trials.SEEDS;
import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleBiFunction;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.analysis.data.Tallies;
import org.fairtray.analysis.models.CountFits;
import org.fairtray.analysis.soundness.Soundness;
import org.fairtray.design.Generator;
import org.fairtray.design.Structure;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Findings;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.Test;

/** What is wrong with data is found where it was planted, and hardly ever where it was not. */
class AnalysisOfSoundnessTest {
    private static final Trials TRAYS =
            Trials.of(place("block 4", "spot 12"), List.of(SOAK, MAT), THROUGH).drawn(1);

    private static double binomial(double rate, UniformRandomProvider random) {
        int through = 0;
        for (int seed = 0; seed < SEEDS; seed++) {
            through += random.nextDouble() < rate ? 1 : 0;
        }
        return through;
    }

    private static double rate(Tray tray) {
        return tray.treatment().level("soak").equals("8") ? 0.6 : 0.4;
    }

    private static Trials read(Trials trials, long seed, ToDoubleBiFunction<Tray, UniformRandomProvider> through) {
        var random = Generator.of(seed);
        return trials.read(t -> Map.of("through", through.applyAsDouble(t, random)));
    }

    /** The looks alone, without the rest of the analysis. */
    private static Map<String, DataCheck> looks(Trials trials) {
        var tallies = Tallies.of(trials.trial(), trials.readings());
        var data = OutcomeData.of(THROUGH, trials.layout().trays(), tallies);
        var structure = Structure.of(trials.trial(), data.trays());
        var fits = CountFits.of(structure, data.counts());
        double[] rates = new double[data.trays().size()];
        for (int i = 0; i < rates.length; i++) {
            rates[i] = fits.fittedRate(i);
        }
        return byKind(Soundness.ofCounts(structure, data, rates, tallies.counters(THROUGH)));
    }

    private static Map<String, DataCheck> byKind(List<DataCheck> checks) {
        var byKind = new TreeMap<String, DataCheck>();
        checks.forEach(c -> byKind.put(c.kind(), c));
        return byKind;
    }

    private static Trials countedBy(Trials trials, Function<Tray, String> who) {
        var names = new HashMap<String, String>();
        trials.layout().trays().forEach(t -> names.put(t.code(), who.apply(t)));
        return trials.with(trials.readings().stream()
                .map(r -> new Reading(
                        r.tray(),
                        r.day(),
                        r.frame(),
                        OptionalInt.empty(),
                        r.values(),
                        Map.of("by", names.get(r.tray()))))
                .toList());
    }

    /** At 1 % (replicates: 2.5 %) each; 300 trials leave 3 expected, and more than 11 (17) are a chance of 1 in 10,000. */
    @Test
    void soundTrialsSeldomRaiseAnAlarm() {
        var alarms = new TreeMap<String, Integer>();
        for (long seed = 1; seed <= 300; seed++) {
            long own = seed;
            var trials = countedBy(
                    read(TRAYS, seed, (t, random) -> binomial(rate(t), random)),
                    t -> (t.stand().at().get(1) * 7 + own) % 3 == 0 ? "Ada" : "Ben");
            looks(trials).forEach((kind, c) -> alarms.merge(kind, c.sound() ? 0 : 1, Integer::sum));
        }
        assertEquals(6, alarms.size());
        alarms.forEach((kind, n) ->
                assertTrue(n <= (kind.equals("replicates") ? 17 : 11), kind + ": " + n + " of 300; all " + alarms));
        assertTrue(alarms.values().stream().mapToInt(n -> n).sum() > 0, "no look ever raises an alarm");
    }

    @Test
    void aTrayThatWentWrongIsFoundAndKept() {
        var wrong = TRAYS.layout().trays().get(6).code();
        var planted = read(TRAYS, 2, (t, random) -> t.code().equals(wrong) ? 2 : binomial(rate(t), random));
        var findings = Sound.findings(planted);
        var outcome = findings.outcomes().get(0);
        var look = byKind(outcome.soundness()).get("outlying tray");
        assertFalse(look.sound());
        assertEquals(List.of(wrong), look.trays());
        assertEquals(48, outcome.trays());
        assertEquals(List.of(), outcome.leftOut());
        assertTrue(findings.warnings().stream()
                .anyMatch(w -> w.kind().equals("outlying tray") && w.sentence().contains(wrong)));
    }

    @Test
    void replicatesThatDifferTooMuchAreNamed() {
        var wrong = TRAYS.layout().trays().get(6);
        var planted = read(TRAYS, 2, (t, random) -> t.code().equals(wrong.code()) ? 2 : binomial(rate(t), random));
        var look = looks(planted).get("replicates");
        assertFalse(look.sound());
        assertTrue(look.trays().contains(wrong.code()));
        assertEquals(2, look.trays().size());
    }

    @Test
    void aTrendAlongThePlaceIsFound() {
        var planted = read(
                TRAYS,
                3,
                (t, random) -> binomial(rate(t) - 0.2 + 0.035 * t.stand().at().get(1), random));
        var look = looks(planted).get("place trend");
        assertFalse(look.sound());
        assertTrue(look.sentence().contains("along the numbers of spot"), look.sentence());
    }

    @Test
    void alikeNeighboursAreFound() {
        var planted =
                read(TRAYS, 3, (t, random) -> binomial(rate(t) + (t.stand().at().get(1) % 8 < 4 ? 0.2 : -0.2), random));
        assertFalse(looks(planted).get("neighbours").sound());
    }

    @Test
    void countsThatWereCopiedAreTooEven() {
        var copied = read(TRAYS, 4, (t, random) -> Math.rint(SEEDS * rate(t)));
        var look = looks(copied).get("dispersion");
        assertFalse(look.sound());
        assertTrue(look.sentence().contains("less than chance allows"), look.sentence());
    }

    @Test
    void seedsThatAreAlikeAreAllowedForUpToALimit() {
        var alike = read(TRAYS, 5, (t, random) -> binomial(rate(t) + (random.nextBoolean() ? 0.12 : -0.12), random));
        var look = looks(alike).get("dispersion");
        assertTrue(look.sound() && look.p() < 0.01, look.toString());
        var wild = read(TRAYS, 5, (t, random) -> binomial(random.nextDouble(), random));
        assertFalse(looks(wild).get("dispersion").sound());
    }

    @Test
    void countersWhoDifferAreFound() {
        Function<Tray, String> who = t -> t.stand().at().get(1) % 2 == 0 ? "Ada" : "Ben";
        var planted = countedBy(
                read(TRAYS, 6, (t, random) -> binomial(rate(t) + (who.apply(t).equals("Ada") ? 0.15 : -0.1), random)),
                who);
        var look = looks(planted).get("counters");
        assertFalse(look.sound());
        assertTrue(look.sentence().contains("Ada, Ben"), look.sentence());
    }

    @Test
    void countersWhoGoWithATreatmentCannotBeTold() {
        var confounded = countedBy(
                read(TRAYS, 6, (t, random) -> binomial(rate(t), random)),
                t -> "by " + t.treatment().level("soak"));
        var look = looks(confounded).get("counters");
        assertTrue(look.sound());
        assertNull(look.statistic());
        assertTrue(look.sentence().contains("can't be told"), look.sentence());
    }

    @Test
    void everyKindOfTrialIsLookedAtWithoutAnError() {
        for (var kind : Trials.kinds()) {
            var trials = kind.drawn(1);
            for (double through : new double[] {0, 1, SEEDS}) {
                looked(trials.read(t -> Map.of("through", through, "height_mm", through)));
            }
            var first = trials.layout().trays().get(0).code();
            looked(trials.keeping(t -> t.code().equals(first)).read(t -> Map.of("through", 7.0, "height_mm", 3.0)));
        }
    }

    private static void looked(Trials trials) {
        for (Findings.OutcomeFindings outcome : Sound.findings(trials).outcomes()) {
            assertEquals(
                    outcome.kind().equals("count") ? 5 : 3, outcome.soundness().size());
            outcome.soundness().forEach(c -> {
                assertFalse(c.sentence().isBlank());
                assertTrue(c.sound() == c.remedy().isEmpty(), c.toString());
                assertTrue(c.value() == null || Double.isFinite(c.value()), c.toString());
            });
        }
    }

    @Test
    void aMeasureThatWentWrongIsFound() {
        var trials = Trials.of(place("block 4", "spot 6"), List.of(SOAK, MAT), HEIGHT)
                .drawn(1);
        var wrong = trials.layout().trays().get(3).code();
        var random = Generator.of(7);
        var planted = trials.read(t ->
                Map.of("height_mm", 20 + 4 * random.nextDouble() + (t.code().equals(wrong) ? 30 : 0)));
        var look = byKind(Sound.findings(planted).outcomes().get(0).soundness()).get("outlying tray");
        assertEquals(List.of(wrong), look.trays());
    }
}
