package org.fairtray.analysis.speed;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.analysis.models.Cells;
import org.fairtray.analysis.models.LogisticFindings;
import org.fairtray.analysis.models.Model;
import org.fairtray.analysis.models.Removals;
import org.fairtray.design.Term;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Speed;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.Tail;
import org.fairtray.statistics.logistic.LogChoices;
import org.fairtray.statistics.time.HazardFit;
import org.fairtray.trial.Treatment;

/**
 * The grouped-time model of all terms and fixed blocks, each term left out of the model that holds every term not
 * containing it. Its p-values take seeds to be independent.
 *
 * <p>Source: Prentice and Gloeckler (1978), Biometrics 34, 57-67.
 */
public final class Hazards {
    private final Courses courses;
    private final Intervals intervals;
    private final Cells cells;
    private final Removals<HazardFit> fits;
    private final Optional<HazardFit> fit;

    private Hazards(Courses courses) {
        this.courses = courses;
        this.intervals = Intervals.of(courses);
        this.cells = Cells.of(courses.structure());
        this.fits =
                new Removals<>(courses.structure().terms(), terms -> HazardFit.of(matrix(terms), intervals.counts()));
        this.fit = intervals.isEmpty() ? Optional.empty() : Optional.of(fits.all());
    }

    public static Hazards of(Courses courses) {
        return new Hazards(courses);
    }

    private ModelMatrix matrix(List<Term> terms) {
        return intervals.matrix(Model.of(cells, terms));
    }

    /** The model; empty where it has no finite estimates, and then {@link #obstacle()} tells why. */
    public Optional<Speed.Hazard> findings() {
        return fit.filter(HazardFit::settled).map(this::findings);
    }

    private Speed.Hazard findings(HazardFit settled) {
        double normal =
                Tail.normalQuantile(1 - courses.structure().trial().choices().alpha() / 2);
        return new Speed.Hazard(
                courses.structure().terms().stream()
                        .flatMap(t -> test(t).stream())
                        .toList(),
                LogisticFindings.coefficients(
                        matrix(courses.structure().terms()), settled.estimates().orElseThrow(), 1, normal),
                settled.logLikelihood() - LogChoices.of(intervals.counts()) + LogChoices.of(intervals.trayCounts()),
                intervals.daysLeftOut());
    }

    private Optional<Logistic.Term> test(Term term) {
        var small = fits.without(term);
        var large = fits.with(term);
        int df = small.residualDegreesOfFreedom() - large.residualDegreesOfFreedom();
        if (df == 0) {
            return Optional.empty();
        }
        double value = Math.max(0, 2 * (large.logLikelihood() - small.logLikelihood()));
        return Optional.of(new Logistic.Term.Plain(
                term.name(), term.factors(), df, "likelihood ratio", value, Tail.chiSquared(value, df)));
    }

    /** What stood in the way of a hazard model; empty where there is one. */
    public Optional<String> obstacle() {
        if (fit.isEmpty()) {
            return Optional.of("There is no hazard model: on every day read nothing came out, or all that was left.");
        }
        return fit.get().settled() ? Optional.empty() : Optional.of(unsettled(fit.get()));
    }

    private String unsettled(HazardFit unsettled) {
        var trays = courses.structure().trays();
        String where = unsettled.separated().stream()
                .map(r -> trays.get(intervals.tray(r)).treatment())
                .distinct()
                .map(Treatment::describe)
                .collect(Collectors.joining("; "));
        return "There is no hazard model: some of its hazards would be 0 or infinite"
                + (where.isEmpty() ? "." : " (" + where + ").");
    }
}
