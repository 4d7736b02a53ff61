package org.fairtray.followup;

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
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.fairtray.Trials;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.Sealing;
import org.fairtray.audit.Audit;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.experience.Experience;
import org.fairtray.experience.Lessons;
import org.fairtray.files.PlanText;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.InventedReadings;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class FollowUpTest {
    private static final int SEEDS = 200;

    private static Trial read(byte[] plan) {
        return TrialFiles.of(Map.of("plan.yaml", plan)).trial();
    }

    private static Trial plan(String factors, String place, String more) {
        var plan = "{format: 1, trial: A, factors: [" + factors + "], place: [" + place
                + "], counting: {days: [6], seeds_per_frame: " + SEEDS
                + "}, outcomes: [{name: through, kind: count, day: 6}]" + more + "}";
        return read(plan.getBytes(StandardCharsets.UTF_8));
    }

    /** Trays a little above and below the rate of their treatment, by turns, and other treatments the other way round. */
    private static FollowUp followUp(Trial trial, ToDoubleFunction<Treatment> rates, double spread) {
        var layout = Randomisation.of(trial).draw(Generator.of(1));
        var readings = new ArrayList<Reading>();
        var seen = new LinkedHashMap<Treatment, Integer>();
        for (var tray : layout.trays()) {
            int turn = seen.merge(tray.treatment(), 1, Integer::sum);
            boolean above = (turn + trial.treatments().indexOf(tray.treatment())) % 2 == 0;
            double rate = rates.applyAsDouble(tray.treatment()) + (above ? spread : -spread);
            var values = Map.of("through", (double) Math.round(SEEDS * rate));
            readings.add(new Reading(tray.code(), 6, 1, OptionalInt.empty(), values, Map.of()));
        }
        return followUp(trial, layout, readings);
    }

    private static FollowUp followUp(Trial trial, Layout layout, List<Reading> readings) {
        var sealing = new Sealing(Seal.State.HOLDS, Optional.empty(), "", "");
        var findings = Analysis.of(trial, layout, readings, sealing, "test");
        Optional<Experience> learned =
                trial.outcomes().get(0).match(c -> Lessons.of(trial, layout, readings, c), m -> Optional.empty());
        return FollowUp.of(trial, findings, learned);
    }

    private static double soaking(Treatment treatment, double gain) {
        return treatment.level("soak").equals("0") ? 0.4 : 0.4 + gain;
    }

    @Test
    void whatIsSettledGoesToAllTraysAndWhatIsOpenIsSownAgain() {
        var trial = plan(
                "{name: soak, unit: h, levels: [0, 8]}, {name: mat, levels: [hemp, coir]}",
                "{name: shelf, count: 4}, {name: spot, count: 8}",
                ", expect: {worthwhile: 0.1, power: 0.9}");
        var next = followUp(trial, t -> soaking(t, 0.3) + (t.level("mat").equals("coir") ? 0.06 : 0), 0.10);
        assertEquals(
                List.of(
                        new Decision("soak", false, List.of("8"), "changed; all trays get its best level, 8 h"),
                        new Decision("mat", true, List.of("hemp", "coir"), "is still open")),
                next.decisions());
        var plan = next.plan().orElseThrow();
        assertEquals(List.of("mat"), plan.factorNames());
        assertEquals(
                "Does mat change how many are through, with soak 8 h in all trays?",
                plan.question().orElseThrow());
        assertEquals(0.7, plan.expectations().controlRate().orElseThrow(), 0.01);
        assertEquals(0.9, plan.expectations().power().orElseThrow());
    }

    @Test
    void aRackThatIsLargerThanNeededIsNotFilled() {
        var trial = plan(
                "{name: mat, levels: [hemp, coir]}",
                "{name: shelf, count: 10}, {name: spot, count: 8}",
                ", expect: {worthwhile: 0.3}");
        var next = followUp(trial, t -> t.level("mat").equals("coir") ? 0.5 : 0.25, 0.25);
        var reach = next.reach().get(0);
        assertEquals(1, reach.sowings());
        assertTrue(reach.power() >= 0.8, reach::toString);
        assertTrue(
                next.trays() < 80
                        && next.trays() == next.plan().orElseThrow().place().trays(),
                next::toString);
    }

    @Test
    void aRackThatIsTooSmallIsSownSeveralTimes() {
        var trial = plan(
                "{name: cover, levels: [0, 3], applied_to: stack}",
                "{name: stack, count: 4}, {name: spot, count: 4}",
                ", expect: {worthwhile: 0.02}");
        var next = followUp(trial, t -> 0.4, 0.12);
        assertEquals(1, next.reach().size(), next::toString);
        var reach = next.reach().get(0);
        assertTrue(reach.power() < 0.8 && (reach.sowings() == null || reach.sowings() > 1), reach::toString);
    }

    @Test
    void levelsThatAreWorseDropOut() {
        var trial = plan(
                "{name: mat, levels: [hemp, coir, pad, felt]}",
                "{name: shelf, count: 6}, {name: spot, count: 4}",
                ", expect: {worthwhile: 0.02}");
        var rates = Map.of("hemp", 0.6, "coir", 0.58, "pad", 0.2, "felt", 0.25);
        var next = followUp(trial, t -> rates.get(t.level("mat")), 0.03);
        assertEquals(List.of("hemp", "coir"), next.decisions().get(0).levels());
        assertEquals(
                "changed, but whether hemp is better than coir is still open",
                next.decisions().get(0).why());
    }

    @Test
    void levelsThatDifferByLessThanMattersSettleTheQuestion() {
        var trial = plan(
                "{name: mat, levels: [hemp, coir, pad]}",
                "{name: shelf, count: 8}, {name: spot, count: 3}",
                ", control: {mat: pad}, expect: {worthwhile: 0.15}");
        var rates = Map.of("hemp", 0.6, "coir", 0.59, "pad", 0.2);
        var next = followUp(trial, t -> rates.get(t.level("mat")), 0.03);
        assertEquals(
                "changed; all trays get its best level, hemp, which no worthwhile difference sets apart from coir",
                next.decisions().get(0).why());
        var plan = next.plan().orElseThrow();
        assertEquals(List.of("usual", "better"), plan.factor("method").levels());
        assertEquals(
                "Does mat hemp (better) do as well again against mat pad (usual), with fresh seed?",
                plan.question().orElseThrow());
    }

    @Test
    void levelsLieAroundABestOneInside() {
        var trial = plan(
                "{name: soak, unit: h, levels: [0, 4, 8, 12]}",
                "{name: shelf, count: 6}, {name: spot, count: 4}",
                ", expect: {worthwhile: 0.05}");
        var rates = Map.of("0", 0.3, "4", 0.55, "8", 0.6, "12", 0.4);
        var next = followUp(trial, t -> rates.get(t.level("soak")), 0.05);
        var levels =
                next.decisions().get(0).levels().stream().map(Double::valueOf).toList();
        assertEquals(3, levels.size(), next::toString);
        assertTrue(levels.get(0) >= 4 && levels.get(0) < levels.get(1), levels::toString);
        assertEquals(6.5, levels.get(1), 0.5);
        assertTrue(levels.get(2) > levels.get(1) && levels.get(2) <= 9, levels::toString);
    }

    @Test
    void onwardFromALargestLevelThatWasBest() {
        var trial =
                plan("{name: soak, unit: h, levels: [0, 8]}", "{name: spot, count: 12}", ", expect: {worthwhile: 0.1}");
        var next = followUp(trial, t -> soaking(t, 0.3), 0.03);
        assertEquals(List.of("8", "16"), next.decisions().get(0).levels());
        assertTrue(next.decisions().get(0).why().contains("16 h is new. Mind what that asks of people"));
    }

    @Test
    void nothingIsOpenWhereNothingMadeAWorthwhileChange() {
        var trial = plan("{name: soak, levels: [0, 8]}", "{name: spot, count: 20}", ", expect: {worthwhile: 0.3}");
        var next = followUp(trial, t -> soaking(t, 0.01), 0.02);
        assertTrue(next.plan().isEmpty());
        assertEquals(
                "Nothing is open, and nothing beat the control: no follow-up is needed.",
                next.reasoning().get(next.reasoning().size() - 1));
    }

    @Test
    void settledLevelsThatNeverMeetGiveWay() {
        var trial = plan(
                "{name: soak, levels: [0, 8]}, {name: mat, levels: [hemp, pad, coir]}",
                "{name: spot, count: 40}",
                ", never: [{soak: 8, mat: pad}], expect: {worthwhile: 0.1}");
        var rates = Map.of("hemp", 0.1, "pad", 0.55, "coir", 0.3);
        var next = followUp(trial, t -> rates.get(t.level("mat")) + soaking(t, 0.3) - 0.4, 0.02);
        var settled = new LinkedHashMap<String, String>();
        next.decisions().stream()
                .filter(d -> !d.kept())
                .forEach(d -> settled.put(d.factor(), d.levels().get(0)));
        assertTrue(trial.made(new Treatment(settled)), settled::toString);
    }

    static List<String> designs() throws IOException {
        try (Stream<Path> plans = Files.list(Path.of("designs"))) {
            return plans.map(Path::toString).sorted().toList();
        }
    }

    /** Whatever comes of a ready plan, its follow-up reads back, fits the same bench and is fair. */
    @ParameterizedTest
    @MethodSource("designs")
    void everyFollowUpCanBeSownFairly(String file) throws IOException {
        var trial = read(Files.readAllBytes(Path.of(file)));
        var layout = Randomisation.of(trial).draw(Generator.of(5));
        var last = trial.factors().get(trial.factors().size() - 1);
        var truth = new InventedReadings(
                t -> 2,
                t -> t.level(last.name()).equals(last.levels().get(1)) ? 1.2 : -0.3,
                t -> 2.5,
                Map.of("tray", 0.3));
        var readings = truth.of(trial, layout, Generator.of(5)).stream()
                .map(r -> Trials.withMeasures(trial, r))
                .toList();

        var next = followUp(trial, layout, readings);

        assertEquals(
                trial.factorNames(),
                next.decisions().stream().map(Decision::factor).toList());
        if (next.plan().isPresent()) {
            var text = PlanText.of(next.plan().get(), next.reasoning());
            var plan = read(text.getBytes(StandardCharsets.UTF_8));
            assertEquals(next.plan().get().factors(), plan.factors());
            var drawn = Randomisation.of(plan).draw(Generator.of(7));
            assertTrue(drawn.trays().size() <= trial.place().trays(), file);
            assertEquals(
                    List.of(),
                    Audit.of(plan, drawn, Seal.State.HOLDS, List.of()).findings().stream()
                            .filter(f -> !f.kind().equals("too small"))
                            .toList());
        }
    }
}
