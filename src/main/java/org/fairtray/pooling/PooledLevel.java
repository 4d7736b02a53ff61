package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.findings.Numbers;
import org.fairtray.findings.Pooled;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.statistics.pooling.Cumulative;
import org.fairtray.statistics.pooling.LeaveOneOut;
import org.fairtray.statistics.pooling.RandomEffects;
import org.fairtray.statistics.pooling.SmallStudies;
import org.fairtray.statistics.pooling.Study;

/** One level against another over all trials that compare the two: the two-stage answer and the views on it. */
final class PooledLevel {
    static final String METHOD = "reml, hartung-knapp";
    static final String ONE_TRIAL = "one trial";

    /** Rates this near to 0 or 1 have log-odds that no average is wanted of. */
    private static final double NEAREST = 1e-3;

    /** Beyond so many trials a view that works out the mean anew for each shows some of them only. */
    private static final int MOST_STEPS = 200;

    /** Sterne and others (2011), BMJ 343, d4002: with fewer trials the test can't tell. */
    private static final int ENOUGH = 10;

    private final Question question;
    private final Optional<String> unit;
    private final String level;
    private final String against;
    private final List<Brought> brought;
    private final List<Gathered.Line> lines;
    private final List<Study> studies;
    private final RandomEffects mean;
    private final double alpha;

    PooledLevel(
            Question question,
            Optional<String> unit,
            String level,
            String against,
            List<Brought> all,
            Gathered gathered,
            double alpha) {
        this.question = question;
        this.unit = unit;
        this.level = level;
        this.against = against;
        this.brought = all.stream().filter(b -> b.compares(level, against)).toList();
        this.lines = brought.stream().map(b -> gathered.lines().get(b.trial())).toList();
        this.studies = brought.stream().map(b -> b.study(level, against)).toList();
        this.mean = RandomEffects.of(studies, alpha);
        this.alpha = alpha;
    }

    /** Of the careful test: never surer than if trials that agree did so by luck. */
    double verdictP() {
        return mean.verdictP();
    }

    /** @param pAdjusted with the factor's other levels; null where it isn't asked for */
    Pooled.Effect effect(Double pAdjusted, Pooled.OneStage oneStage) {
        var tau2 = mean.tauSquaredInterval();
        var prediction = mean.prediction();
        var base = question.isCount() ? OptionalDouble.of(againstRate()) : OptionalDouble.empty();
        return new Pooled.Effect(
                question.factor(),
                level,
                against,
                unit.orElse(null),
                question.outcome(),
                question.of().orElse(null),
                question.scale(),
                studies.size(),
                mean.estimate(),
                mean.standardError().orElse(mean.plainStandardError()),
                mean.low(),
                mean.high(),
                mean.p(),
                pAdjusted,
                Pooling.orNull(mean.tauSquared()),
                tau2.map(Interval::low).orElse(null),
                tau2.map(Interval::high).orElse(null),
                Pooling.orNull(mean.iSquared()),
                Pooling.orNull(mean.iSquaredFromQ()),
                Pooling.orNull(mean.q()),
                Pooling.orNull(mean.qP()),
                prediction.map(Interval::low).orElse(null),
                prediction.map(Interval::high).orElse(null),
                studies.size() > 1 ? METHOD : ONE_TRIAL,
                base.isPresent() ? base.getAsDouble() : null,
                base.isPresent() ? Numbers.changed(base.getAsDouble(), mean.estimate()) : null,
                difference(base, mean.estimate()),
                difference(base, mean.verdictLow()),
                difference(base, mean.verdictHigh()),
                prediction.map(i -> difference(base, i.low())).orElse(null),
                prediction.map(i -> difference(base, i.high())).orElse(null),
                oneStage,
                trials(),
                leaveOneOut(),
                cumulative(),
                smallStudies(),
                new Explaining(studies, lines, alpha).moderators());
    }

    /** The trials' rates under the level compared with, averaged as log-odds with the weights of the mean. */
    private double againstRate() {
        double[] weights = mean.weights();
        double sum = 0;
        for (int i = 0; i < weights.length; i++) {
            double rate = Math.max(NEAREST, Math.min(1 - NEAREST, brought.get(i).value(against)));
            sum += weights[i] * Math.log(rate / (1 - rate));
        }
        return LogisticFit.rate(sum);
    }

    private static Double difference(OptionalDouble base, double effect) {
        return base.isPresent() ? Numbers.changed(base.getAsDouble(), effect) - base.getAsDouble() : effect;
    }

    private List<Pooled.Study> trials() {
        double[] weights = mean.weights();
        var trials = new ArrayList<Pooled.Study>();
        for (int i = 0; i < weights.length; i++) {
            var line = lines.get(i);
            var alone = RandomEffects.of(List.of(studies.get(i)), alpha);
            trials.add(new Pooled.Study(
                    line.id(),
                    line.title(),
                    line.farm(),
                    line.drawn().orElse(null),
                    alone.estimate(),
                    studies.get(i).standardError(),
                    alone.low(),
                    alone.high(),
                    weights[i]));
        }
        return trials;
    }

    /** None where trials are few enough to see it by eye, or so many that no single one can matter. */
    private List<Pooled.Step> leaveOneOut() {
        if (studies.size() < 3 || studies.size() > MOST_STEPS) {
            return List.of();
        }
        var without = LeaveOneOut.of(studies, alpha);
        return IntStream.range(0, without.size())
                .mapToObj(i -> step(i, without.get(i)))
                .toList();
    }

    private List<Pooled.Step> cumulative() {
        if (studies.size() < 3) {
            return List.of();
        }
        var sizes = sizes(studies.size());
        var means = Cumulative.of(studies, sizes, alpha);
        return IntStream.range(0, sizes.size())
                .mapToObj(i -> step(sizes.get(i) - 1, means.get(i)))
                .toList();
    }

    /** All sizes, or of many trials some that are further apart the larger they are. */
    private static List<Integer> sizes(int all) {
        if (all <= MOST_STEPS) {
            return IntStream.rangeClosed(1, all).boxed().toList();
        }
        int some = 40;
        return IntStream.rangeClosed(0, some)
                .map(i -> (int) Math.round(Math.pow(all, i / (double) some)))
                .distinct()
                .boxed()
                .toList();
    }

    private Pooled.Step step(int trial, RandomEffects some) {
        return new Pooled.Step(
                lines.get(trial).id(),
                lines.get(trial).title(),
                some.studies().size(),
                some.estimate(),
                some.low(),
                some.high(),
                some.p(),
                Pooling.orNull(some.tauSquared()));
    }

    private Pooled.SmallStudies smallStudies() {
        return studies.size() < ENOUGH
                ? null
                : SmallStudies.of(studies)
                        .map(s -> new Pooled.SmallStudies(
                                s.intercept(),
                                s.standardError(),
                                s.t(),
                                s.degreesOfFreedom(),
                                s.p(),
                                s.p() <= alpha
                                        ? "Small trials show other effects than large ones. Trials without a finding may"
                                                + " not have been shared, or small trials may differ in other ways."
                                        : "Small trials don't show other effects than large ones."))
                        .orElse(null);
    }
}
