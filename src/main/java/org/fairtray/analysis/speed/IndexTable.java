package org.fairtray.analysis.speed;

import java.util.List;
import java.util.Optional;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Speed;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.statistics.time.SpeedIndices;
import org.fairtray.statistics.time.StepCurve;

/** The indices of each treatment, from the counts of its trays added up: not the averages of its trays' indices. */
public final class IndexTable {
    private IndexTable() {}

    /** The indices of all treatments; those of one of which nothing came out are null. */
    public static List<Speed.Indices> of(Courses courses) {
        return courses.byTreatment().entrySet().stream()
                .map(e -> new Speed.Indices(e.getKey().levels(), values(Courses.pooled(e.getValue()))))
                .toList();
    }

    private static List<Speed.Index> values(DayCounts counts) {
        var step = new StepCurve(counts);
        var some = SpeedIndices.of(counts);
        return List.of(
                index("mean time", some.map(SpeedIndices::meanTime), "days", "Ellis and Roberts 1981"),
                index("time to half (Coolbear)", step.halfTimeCoolbear(), "days", "Coolbear and others 1984"),
                index("time to half (Farooq)", step.halfTimeFarooq(), "days", "Farooq and others 2005"),
                index("first day", some.map(SpeedIndices::firstDay), "days", "Ranal and Santana 2006"),
                index("last day", some.map(SpeedIndices::lastDay), "days", "Ranal and Santana 2006"),
                index("speed", some.map(SpeedIndices::maguireSpeed), "seeds a day", "Maguire 1962"),
                index("speed of per cent", some.map(SpeedIndices::maguireSpeedOfPercent), "% a day", "Maguire 1962"),
                index(
                        "coefficient of velocity",
                        some.map(SpeedIndices::coefficientOfVelocity),
                        "% a day",
                        "Kotowski 1926"),
                index("mean rate", some.map(SpeedIndices::meanRate), "per day", "Ranal and Santana 2006"),
                index(
                        "germination index",
                        some.map(SpeedIndices::germinationIndex),
                        "seed days",
                        "Benech-Arnold and others 1991"),
                index("Timson's sum", some.map(SpeedIndices::timsonSum), "%", "Timson 1965"),
                index(
                        "coefficient of variation",
                        some.flatMap(SpeedIndices::coefficientOfVariation),
                        "none",
                        "Ranal and Santana 2006"),
                index("synchrony", some.flatMap(SpeedIndices::synchrony), "none", "Primack 1980"),
                index("uncertainty", some.map(SpeedIndices::uncertainty), "bits", "Labouriau and Valadares 1976"));
    }

    private static Speed.Index index(String name, Optional<Double> value, String unit, String source) {
        return new Speed.Index(name, value.map(Numbers::orNull).orElse(null), unit, source);
    }
}
