package org.fairtray.analysis;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.analysis.models.MeasureFits;
import org.fairtray.analysis.models.Tests;
import org.fairtray.analysis.speed.Courses;
import org.fairtray.analysis.speed.MeanTimes;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Outcome;

/**
 * What is concluded of how fast a count came out: the mean time of those that came out of each tray, analysed as any
 * measure is, each term against the units it was given to.
 */
public final class SpeedInference {
    private final Tests tests;
    private final List<Effect> differences;
    private final SpeedVerdicts verdicts;

    private SpeedInference(Tests tests, List<Effect> differences, SpeedVerdicts verdicts) {
        this.tests = tests;
        this.differences = differences;
        this.verdicts = verdicts;
    }

    static SpeedInference of(MeanTimes times, Outcome.Count outcome) {
        var structure = times.structure();
        var anova = AnovaPart.of(structure, times.days());
        var fits = MeasureFits.of(structure, times.days(), anova, times.leastVariance());
        var tests = Tests.by(fits.yardstick(), structure);
        var differences = new Effects(structure, fits.predictor(), fits.yardstick(), false).againstControl();
        return new SpeedInference(tests, differences, new SpeedVerdicts(structure, outcome, tests, differences));
    }

    /**
     * The conclusions from what came out of each tray alone, without all that a report shows beside them.
     *
     * @return empty where no tray was read on two days or nothing came out
     */
    public static Optional<SpeedInference> ofCourses(
            Structure structure, Outcome.Count outcome, Map<String, DayCounts> courses) {
        return Courses.of(structure, courses).map(c -> of(MeanTimes.of(c), outcome));
    }

    SpeedVerdicts verdicts() {
        return verdicts;
    }

    /** The test of each term. */
    public List<Findings.TermTest> termTests() {
        return tests.findings();
    }

    /** Every level against its control, in days. */
    public List<Effect> differences() {
        return differences;
    }

    /** One verdict for each factor. */
    public List<Findings.Verdict> conclusions() {
        return verdicts.findings();
    }
}
