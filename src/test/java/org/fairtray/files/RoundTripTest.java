package org.fairtray.files;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import java.util.TreeSet;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is written is read back as it was: whatever the grower's names, counts and notes are. */
class RoundTripTest {
    private static final String[] PIECES = {
        "a", "Ä", "7", "=", "+", "-", "@", "'", "\"", ",", ";", "\u200f", "شعير", "種", "🌱", " ", "\n", "\r\n", "\t",
        "#", "0.1"
    };

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void layoutIsReadAsItWasWritten(long seed) {
        var random = new Random(seed);
        var trial = trial(random);
        var layout = layout(trial, random);
        var problems = new Problems(LayoutFile.NAME);
        var read = LayoutFile.read(trial, file(LayoutFile.text(trial, layout)), problems, new TreeSet<>());
        problems.throwIfAny();
        assertEquals(layout.trays(), read);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void readingsAreReadAsTheyWereWritten(long seed) {
        var random = new Random(seed);
        var trial = trial(random);
        var readings = readings(trial, layout(trial, random), random);
        var notes = List.of("note", "empty", text(random, 5, true), "=SUM(A1)");
        var problems = new Problems(ReadingsFile.NAME);
        var text = ReadingsFile.text(trial, readings, notes);
        var read = ReadingsFile.read(trial, file(text), problems, Optional.empty());
        problems.throwIfAny();
        assertEquals(readings, read.readings());
        assertEquals(notes, read.noteColumns());
        assertEquals(text, ReadingsFile.text(trial, read.readings(), read.noteColumns()));
    }

    @ParameterizedTest
    @ValueSource(longs = {0, -1, Long.MAX_VALUE, Long.MIN_VALUE})
    void sealIsReadAsItWasWritten(long seed) {
        var random = new Random(seed);
        var restrictions = List.of(text(random, 8, true), "no two <alike> in a row");
        var seal = new Seal(
                "0a".repeat(32),
                "f9".repeat(32),
                Optional.of("12".repeat(32)),
                seed == 0 ? Optional.empty() : Optional.of("34".repeat(32)),
                seed,
                "g & h",
                restrictions,
                "2026-03-01",
                "0.1.0");
        var problems = new Problems(SealFile.NAME);
        assertEquals(Optional.of(seal), SealFile.read(file(SealFile.text(seal)), problems));
    }

    private static StoredFile file(String text) {
        return new StoredFile("round trip", text.getBytes(StandardCharsets.UTF_8));
    }

    private static Trial trial(Random random) {
        var factors = new ArrayList<Factor>();
        for (int f = 0; f <= random.nextInt(3); f++) {
            var levels = new TreeSet<String>();
            while (levels.size() < 2 + random.nextInt(3)) {
                levels.add(text(random, 4, false));
            }
            factors.add(
                    new Factor("f" + f + text(random, 3, false), Optional.empty(), List.copyOf(levels), Place.TRAY));
        }
        var place = new Place(List.of(
                new Place.Level("p" + text(random, 3, false), 1 + random.nextInt(3), Optional.empty()),
                new Place.Level("=q" + text(random, 3, false), 2 + random.nextInt(4), Optional.empty())));
        return new Trial(
                "Random",
                Optional.empty(),
                Optional.empty(),
                factors,
                new Treatment(Map.of()),
                List.of(),
                place,
                Map.of(),
                List.of(new Batch("jar", factors.get(0).name(), 3)),
                OptionalInt.empty(),
                new Counting(List.of(1, 3, 5), 1 + random.nextInt(2), 50, random.nextBoolean()),
                List.of(new Outcome.Count("through", "sown", 5), new Outcome.Measure("height_mm", 5)),
                AnalysisChoices.USUAL,
                Expectations.none(),
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                List.of(),
                Map.of("mat", "hemp", "temperature_c", "21.50"));
    }

    private static Layout layout(Trial trial, Random random) {
        var stands = new ArrayList<>(trial.place().stands());
        Collections.shuffle(stands, random);
        var trays = new ArrayList<Tray>();
        for (var stand : stands.subList(0, 1 + random.nextInt(stands.size()))) {
            var levels = new LinkedHashMap<String, String>();
            trial.factors()
                    .forEach(f -> levels.put(
                            f.name(), f.levels().get(random.nextInt(f.levels().size()))));
            var code = trays.size() + text(random, 4, true);
            trays.add(new Tray(code, stand, Map.of("jar", 1 + random.nextInt(3)), new Treatment(levels)));
        }
        return new Layout(trays);
    }

    private static List<Reading> readings(Trial trial, Layout layout, Random random) {
        var readings = new ArrayList<Reading>();
        boolean sown = random.nextBoolean();
        for (var tray : layout.trays()) {
            for (int frame = 1; frame <= trial.counting().framesPerTray(); frame++) {
                int seeds = 30 + random.nextInt(10);
                for (int day : trial.counting().days()) {
                    var values = new LinkedHashMap<String, Double>();
                    // Few enough that neither new nor cumulative counts exceed the seeds.
                    values.put("germinated", 2.0 + day);
                    values.put("through", (double) day);
                    values.put("height_mm", random.nextGaussian() * Math.pow(10, random.nextInt(40) - 20));
                    values.keySet().removeIf(c -> random.nextInt(4) == 0 && !c.equals("germinated"));
                    var notes = random.nextBoolean() ? Map.of("note", text(random, 9, true)) : Map.<String, String>of();
                    var said = sown ? OptionalInt.of(seeds) : OptionalInt.empty();
                    readings.add(new Reading(tray.code(), day, frame, said, values, notes));
                }
            }
        }
        Collections.shuffle(readings, random);
        return readings;
    }

    /** Odd text without spaces around it; with line breaks and tabs in it where a file may hold them. */
    private static String text(Random random, int pieces, boolean breaks) {
        var text = new StringBuilder();
        for (int i = 0; i < pieces; i++) {
            text.append(PIECES[random.nextInt(PIECES.length)]);
        }
        var plain = breaks ? text.toString() : text.toString().replaceAll("[\t\r\n]", "_");
        var trimmed = Sheet.trim(plain);
        return trimmed.isEmpty() ? "x" : trimmed;
    }
}
