package org.fairtray.followup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.experience.Experience;
import org.fairtray.findings.Findings;
import org.fairtray.sizing.Assumptions;
import org.fairtray.statistics.Count;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * The trial that would settle what an analysed one left open, at the least cost in trays.
 *
 * @param outcome the question's own
 * @param decisions what becomes of each factor
 * @param plan the trial to sow; empty where nothing is open, or where the place holds no fair trial of it
 * @param trays how many it has; 0 without a plan
 * @param reach what it would see of each factor
 * @param reasoning the same in sentences
 */
public record FollowUp(
        String outcome,
        List<Decision> decisions,
        Optional<Trial> plan,
        int trays,
        List<Reach> reach,
        List<String> reasoning) {
    /**
     * The follow-up of a trial.
     *
     * @param findings of the same trial
     * @param learned what it teaches, if its question's own outcome is a count that was read
     */
    public static FollowUp of(Trial trial, Findings findings, Optional<Experience> learned) {
        var outcome = findings.outcomes().get(0);
        var assumptions = Assumptions.of(trial);
        var question = new Question(trial, new Decisions(trial, outcome, assumptions.worthwhile()).all());
        return new Builder(trial, outcome, question, learned, assumptions).followUp();
    }

    private static final class Builder {
        private final Trial trial;
        private final Findings.OutcomeFindings outcome;
        private final Question question;
        private final Optional<Experience> learned;
        private final double worthwhile;
        private final double power;
        private final List<String> reasoning = new ArrayList<>();

        Builder(
                Trial trial,
                Findings.OutcomeFindings outcome,
                Question question,
                Optional<Experience> learned,
                Assumptions assumptions) {
            this.trial = trial;
            this.outcome = outcome;
            this.question = question;
            this.learned = learned;
            this.worthwhile = assumptions.worthwhile();
            this.power = assumptions.power();
        }

        FollowUp followUp() {
            question.decisions()
                    .forEach(d -> reasoning.add(
                            d.factor() + " " + d.why() + (d.kept() ? ": sown again at " + levels(d) : "") + "."));
            reasoning.add("More " + outcome.name() + " was taken for better.");
            var next = question.next();
            if (next.isEmpty()) {
                reasoning.add("Nothing is open, and nothing beat the control: no follow-up is needed.");
                return result(Optional.empty());
            }
            var bench = new SmallestPlace(worthwhile, power);
            var placed = bench.smallest(expecting(next.get()));
            placed = placed.isPresent() ? placed : withFewer(bench);
            placed.ifPresentOrElse(
                    this::explain,
                    () -> reasoning.add("The place holds no fair trial of what is open; it needs more trays, or fewer"
                            + " levels."));
            return result(placed);
        }

        private String levels(Decision decision) {
            return String.join(
                    ", ",
                    decision.levels().stream()
                            .map(trial.factor(decision.factor())::describe)
                            .toList());
        }

        /** Without the last of the kept factors, the last two ..., until the place holds the rest. */
        private Optional<SmallestPlace.Placed> withFewer(SmallestPlace bench) {
            var kept = question.decisions().stream()
                    .filter(Decision::kept)
                    .map(Decision::factor)
                    .toList();
            for (int left = kept.size() - 1; left >= 1; left--) {
                var waiting = kept.subList(left, kept.size());
                var placed = bench.smallest(expecting(question.narrowed(waiting)));
                if (placed.isPresent()) {
                    reasoning.add("The place doesn't hold all of that at once: " + String.join(", ", waiting)
                            + " must wait, at the control's level, for the trial after.");
                    return placed;
                }
            }
            return Optional.empty();
        }

        private void explain(SmallestPlace.Placed placed) {
            reasoning.add(placed.trays() + " trays on " + placed.trial().place().describe()
                    + (placed.trial().place().equals(trial.place()) ? ", the whole place." : ", a part of the place."));
            learned.ifPresent(l -> reasoning.add("Expected as the last trial was: "
                    + percent(placed.trial().expectations().controlRate().orElse(0)) + " " + outcome.name()
                    + " without a change"
                    + l.trayCorrelation()
                            .map(r -> String.format(Locale.ROOT, ", correlation within trays %.3f", r.value()))
                            .orElse("")
                    + "."));
            placed.reach().forEach(r -> reasoning.add(reached(r)));
        }

        private String reached(Reach reach) {
            String start = reach.factor() + ": a change of " + Math.round(100 * reach.difference())
                    + " points would be found in about " + percent(Math.floor(100 * reach.power()) / 100)
                    + " of such trials, with " + Math.round(reach.unitsPerLevel()) + " × " + reach.unit()
                    + " for each level";
            if (reach.power() >= power) {
                return start + ".";
            }
            return start + ", less than the " + percent(power) + " wanted. "
                    + (reach.sowings() == null
                            ? "Sowing it again and again would not do: ask for a larger change."
                            : "Sow it " + reach.sowings()
                                    + " times, drawn anew each time, and analyse the sowings as blocks.");
        }

        private static String percent(double share) {
            return Math.round(100 * share) + " %";
        }

        /** The trial as far as is known what to expect of it. */
        private Trial expecting(Trial next) {
            var own = learned.map(l -> l.onto(next)).orElse(next.expectations());
            var rate = learned.isPresent()
                    ? OptionalDouble.of(Math.max(0.001, Math.min(0.999, rounded(rate(next)))))
                    : own.controlRate();
            var sd = new LinkedHashMap<String, Double>();
            own.placeSd().forEach((level, value) -> sd.put(level, rounded(value)));
            return next.expecting(new Expectations(
                    rate,
                    OptionalDouble.of(worthwhile),
                    own.trayCorrelation().isPresent()
                            ? OptionalDouble.of(rounded(own.trayCorrelation().getAsDouble()))
                            : OptionalDouble.empty(),
                    sd,
                    OptionalDouble.of(power)));
        }

        /** The rate of all that got what is settled, and the control of the rest if any did; else of the control. */
        private double rate(Trial next) {
            double control = learned.orElseThrow().controlRate().value();
            if (!trial.factorNames().containsAll(next.factorNames())) {
                return control;
            }
            return rateOf(question.settled().with(next.control()))
                    .or(() -> rateOf(question.settled()))
                    .orElse(control);
        }

        private Optional<Double> rateOf(Treatment part) {
            var sum = outcome.summary().stream()
                    .filter(Findings.CountSummary.class::isInstance)
                    .map(Findings.CountSummary.class::cast)
                    .filter(s -> new Treatment(s.treatment()).includes(part))
                    .map(s -> new Count(s.successes(), s.of()))
                    .reduce(new Count(0, 0), Count::plus);
            return sum.trials() == 0 ? Optional.empty() : Optional.of((sum.successes() + 0.5) / (sum.trials() + 1));
        }

        private static double rounded(double value) {
            return Math.round(1000 * value) / 1000.0;
        }

        private FollowUp result(Optional<SmallestPlace.Placed> placed) {
            return new FollowUp(
                    outcome.name(),
                    question.decisions(),
                    placed.map(SmallestPlace.Placed::trial),
                    placed.map(SmallestPlace.Placed::trays).orElse(0),
                    placed.map(SmallestPlace.Placed::reach).orElse(List.of()),
                    List.copyOf(reasoning));
        }
    }
}
