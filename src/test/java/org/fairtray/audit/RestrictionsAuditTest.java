package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

/** What was asked for is no pattern; what was asked for and isn't there is told, with the swap that mends it. */
class RestrictionsAuditTest {
    private static Trial trial(String levels, String place, String restrictions) {
        var plan = "{format: 1, trial: A, factors: [{name: soak, levels: [" + levels + "]}], place: [" + place
                + "], counting: {days: [1]}, outcomes: [{name: height_mm, kind: measure, day: 1}], restrictions: ["
                + restrictions + "]}";
        return TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
    }

    private static List<Audit.Finding> audit(Trial trial, List<Tray> trays, Seal.State seal) {
        return Audit.of(trial, new Layout(trays), seal, List.of()).findings();
    }

    private static List<Tray> trays(Trial trial, String... levels) {
        var stands = trial.place().stands();
        return IntStream.range(0, levels.length)
                .mapToObj(
                        i -> new Tray("T" + (i + 1), stands.get(i), Map.of(), new Treatment(Map.of("soak", levels[i]))))
                .toList();
    }

    @Test
    void turnsThatWereAskedForAreNoPattern() {
        var trial = trial("0, 8", "{name: stack, count: 4}, {name: spot, count: 6}", "{keep_apart: soak}");
        for (long seed = 1; seed <= 5; seed++) {
            var trays = Randomisation.of(trial).draw(Generator.of(seed)).trays();
            assertEquals(List.of(), audit(trial, trays, Seal.State.HOLDS), "seed " + seed);
            assertEquals(
                    List.of("not randomised"),
                    audit(trial, trays, Seal.State.ABSENT).stream()
                            .map(Audit.Finding::kind)
                            .toList(),
                    "seed " + seed);
        }
    }

    @Test
    void likeNeighboursAreToldAndMended() {
        var trial = trial("0, 4, 8", "{name: stack, count: 2}, {name: spot, count: 6}", "{keep_apart: soak}");
        var levels = List.of("0", "4", "8", "8", "0", "4", "8", "0", "4", "0", "8", "4");
        var found = audit(trial, trays(trial, levels.toArray(String[]::new)), Seal.State.HOLDS);
        assertEquals(1, found.size(), found::toString);
        assertEquals("restriction broken", found.get(0).kind());
        assertEquals(
                "The plan asks that the same soak never lies side by side. Here 1 pair lies side by side, such as two of"
                        + " soak 8.",
                found.get(0).sentence());
        var remedy = found.get(0).remedy();
        var swap = remedy.replaceAll(".*swap T(\\d+) and T(\\d+)\\.$", "$1 $2").split(" ", -1);
        var mended = new ArrayList<>(levels);
        Collections.swap(mended, Integer.parseInt(swap[0]) - 1, Integer.parseInt(swap[1]) - 1);
        assertEquals(List.of(), audit(trial, trays(trial, mended.toArray(String[]::new)), Seal.State.HOLDS), remedy);
    }
}
