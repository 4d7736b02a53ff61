package org.fairtray.analysis.speed;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Speed;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.statistics.time.HalfTimeDispersion;
import org.fairtray.statistics.time.LogLogisticCurve;
import org.fairtray.statistics.time.StepCurve;
import org.fairtray.trial.Treatment;

/**
 * A curve for each treatment, with an interval of its time to half that counts trays and not seeds: the dispersion of trays
 * about their curves, put together over treatments with two trays or more as a residual mean square is, and Student's t on
 * as many degrees of freedom as there are such trays less their treatments. The dispersion is never taken below 1.
 */
public final class TimesToHalf {
    private final Map<Treatment, List<DayCounts>> trays;
    private final Map<Treatment, LogLogisticCurve> curves = new LinkedHashMap<>();
    private final double alpha;
    private final double dispersion;
    private final int degreesOfFreedom;

    private TimesToHalf(Courses courses) {
        this.trays = courses.byTreatment();
        this.alpha = courses.structure().trial().choices().alpha();
        double weighted = 0;
        int degrees = 0;
        for (var entry : trays.entrySet()) {
            var curve = LogLogisticCurve.of(entry.getValue());
            curve.ifPresent(c -> curves.put(entry.getKey(), c));
            var own = curve.flatMap(c -> HalfTimeDispersion.of(c, entry.getValue()));
            int more = own.isPresent() ? entry.getValue().size() - 1 : 0;
            weighted += more * own.orElse(0.0);
            degrees += more;
        }
        this.degreesOfFreedom = degrees;
        this.dispersion = degrees == 0 ? 1 : Math.max(1, weighted / degrees);
    }

    /** The curves of all treatments. */
    public static List<Speed.Curve> of(Courses courses) {
        var all = new TimesToHalf(courses);
        return all.trays.keySet().stream().map(all::findings).toList();
    }

    private Speed.Curve findings(Treatment treatment) {
        var pooled = Courses.pooled(trays.get(treatment));
        var within = new StepCurve(pooled).halfWithin();
        var curve = Optional.ofNullable(curves.get(treatment));
        var half = curve.filter(c -> degreesOfFreedom > 0).map(this::halfWidth);
        return new Speed.Curve(
                treatment.levels(),
                curve.map(LogLogisticCurve::halfTime).orElse(null),
                half.map(h -> curve.get().halfTime() * Math.exp(-h)).orElse(null),
                half.map(h -> Numbers.orNull(curve.get().halfTime() * Math.exp(h)))
                        .orElse(null),
                curve.map(LogLogisticCurve::finalRate).orElse(null),
                curve.map(LogLogisticCurve::steepness).orElse(null),
                within.filter(i -> i.low() > 0).map(i -> (int) i.low()).orElse(null),
                within.map(i -> (int) i.high()).orElse(null),
                note(pooled, curve));
    }

    /** Of the logarithm of the time to half. */
    private double halfWidth(LogLogisticCurve curve) {
        return Tail.tQuantile(1 - alpha / 2, degreesOfFreedom)
                * Math.sqrt(dispersion)
                * curve.logHalfTimeStandardError();
    }

    private String note(DayCounts pooled, Optional<LogLogisticCurve> curve) {
        if (pooled.germinated() == 0) {
            return "None came out.";
        }
        if (curve.isEmpty()) {
            return "No curve: too few came out, or on too few of the days read, to tell its shape.";
        }
        var notes = new ArrayList<String>();
        double last = pooled.days().get(pooled.size() - 1);
        if (curve.get().halfTime() > last) {
            notes.add("The curve comes to half of its final rate only after day " + (int) last
                    + ", the last one read: that is a guess.");
        }
        if (degreesOfFreedom == 0) {
            notes.add("No interval: no treatment has two trays, so how much trays differ is not known.");
        }
        return notes.isEmpty() ? null : String.join(" ", notes);
    }
}
