package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.analysis.speed.Courses;
import org.fairtray.analysis.speed.Hazards;
import org.fairtray.analysis.speed.IndexTable;
import org.fairtray.analysis.speed.MeanTimes;
import org.fairtray.analysis.speed.TimesToHalf;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Speed;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Tray;

/**
 * How fast a count came out. What is concluded rests on {@link SpeedInference}; the hazard model's own tests count seeds
 * and would claim too much.
 */
final class SpeedAnalysis {
    private final Speed findings;
    private final SpeedVerdicts verdicts;

    private SpeedAnalysis(Outcome.Count outcome, Courses courses) {
        var times = MeanTimes.of(courses);
        var inference = SpeedInference.of(times, outcome);
        var hazards = Hazards.of(courses);
        this.verdicts = inference.verdicts();
        this.findings = new Speed(
                hazards.findings().orElse(null),
                inference.termTests(),
                inference.differences(),
                TimesToHalf.of(courses),
                IndexTable.of(courses),
                verdicts.findings(),
                notes(outcome, courses, times, hazards));
    }

    /**
     * The speed of a count.
     *
     * @param structure of the trays that the count could be read from
     * @param courses what came out of each by day
     * @return empty where no tray was read on two days or nothing came out
     */
    static Optional<SpeedAnalysis> of(Structure structure, Outcome.Count outcome, Map<String, DayCounts> courses) {
        return Courses.of(structure, courses).map(c -> new SpeedAnalysis(outcome, c));
    }

    Speed findings() {
        return findings;
    }

    /** A verdict on how many, with a sentence on how fast after it. */
    Findings.Verdict both(Findings.Verdict howMany) {
        return new Findings.Verdict(
                howMany.factor(), howMany.verdict(), howMany.sentence() + " " + verdicts.briefly(howMany.factor()));
    }

    private static List<String> notes(Outcome.Count outcome, Courses courses, MeanTimes times, Hazards hazards) {
        var notes = new ArrayList<String>();
        hazards.obstacle().ifPresent(notes::add);
        if (!times.none().isEmpty()) {
            notes.add("Trays from which none came out have no speed, so the tests of speed leave them out: "
                    + times.none().stream().map(Tray::code).collect(Collectors.joining(", ")) + ".");
        }
        if (!outcome.of().equals("sown")) {
            notes.add("The seeds that could come out are those " + outcome.of() + " by day " + outcome.day()
                    + ", on every day.");
        }
        if (!courses.readTogether()) {
            notes.add(
                    "Some trays were not read in full on every day: what they gave counts for the longer time between"
                            + " their readings, and the indices of a treatment count only days on which all its trays were read.");
        }
        return notes;
    }
}
