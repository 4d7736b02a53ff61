package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.stream.Collectors;
import org.fairtray.findings.Pooled;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.Contribution.FactorPart;
import org.fairtray.pooling.contribution.Contribution.OutcomePart;
import org.fairtray.trial.Numbers;

/**
 * What trials bring, question by question and in common words, and which of them were left out. Trials are read one at a time;
 * kept of each are a line and its few estimates, and its counts only while all of them together are few enough.
 */
final class Gathered {
    /** What keeps a trial's estimates from being believed; a trial that is only small is what pooling is for. */
    private static final Set<String> UNFAIR = Set.of(
            "confounded", "no replication", "false replication", "patterned", "restriction broken", "not randomised");

    private final Glossary glossary;
    private final PoolingChoices choices;
    private final List<Line> lines = new ArrayList<>();
    private final Map<Question, List<Brought>> brought = new LinkedHashMap<>();
    private final List<Pooled.LeftOut> leftOut = new ArrayList<>();
    private final Map<String, Integer> firstOutcomes = new HashMap<>();
    private final Set<String> seen = new HashSet<>();
    private final Map<String, String> layouts = new HashMap<>();
    private OptionalDouble worthwhile = OptionalDouble.empty();
    private int trays;
    private boolean countsKept = true;

    /** A trial that may be pooled. */
    record Line(
            String id, String title, String farm, Optional<String> drawn, int trays, Map<String, String> conditions) {}

    private Gathered(Glossary glossary, PoolingChoices choices) {
        this.glossary = glossary;
        this.choices = choices;
    }

    static Gathered of(Glossary glossary, SharedTrials trials, PoolingChoices choices) {
        var gathered = new Gathered(glossary, choices);
        trials.forEach(gathered::add);
        return gathered;
    }

    private void add(SharedTrial trial) {
        var contribution = trial.contribution();
        if (!seen.add(trial.id())) {
            leave(trial, null, "it is there twice");
            return;
        }
        var same = layouts.putIfAbsent(contribution.layout(), contribution.title());
        if (same != null) {
            leave(
                    trial,
                    null,
                    "it has the same layout as another that is pooled ('" + same + "'), so it is the same trial");
            return;
        }
        if (contribution.outcomes().isEmpty()) {
            leave(trial, null, "nothing was read");
            return;
        }
        int number = lines.size();
        lines.add(new Line(
                trial.id(),
                contribution.title(),
                trial.farmOrOwn(),
                contribution.drawn(),
                contribution.trays(),
                glossary.conditions(contribution)));
        trays += contribution.trays();
        if (countsKept && trays > choices.mostTrays()) {
            countsKept = false;
            brought.replaceAll((question, all) -> all.stream()
                    .map(b -> new Brought(
                            b.trial(), b.levels(), b.values(), b.estimates(), b.covariance(), Optional.empty()))
                    .collect(Collectors.toCollection(ArrayList::new)));
        }
        boolean any = false;
        var told = new HashSet<String>();
        for (var outcome : contribution.outcomes()) {
            for (var part : outcome.factors()) {
                any |= add(trial, number, outcome, part, told);
            }
        }
        if (any) {
            var first = contribution.outcomes().get(0);
            firstOutcomes.merge(glossary.outcome(first.name()), 1, Integer::sum);
            contribution
                    .worthwhile()
                    .ifPresent(w ->
                            worthwhile = OptionalDouble.of(Math.min(w, worthwhile.orElse(Double.POSITIVE_INFINITY))));
        }
    }

    /** @param told the factors that were said to be left out: each once, however many outcomes there are */
    private boolean add(SharedTrial trial, int number, OutcomePart outcome, FactorPart part, Set<String> told) {
        var factor = glossary.factor(part, trial.contribution().tray());
        var reason = part.missing().or(factor::problem).or(() -> fault(trial.contribution(), part.name()));
        if (reason.isPresent()) {
            return leave(trial, factor.name(), reason.get(), told);
        }
        var levels = factor.levels();
        if (Set.copyOf(levels).size() < levels.size()) {
            return leave(trial, factor.name(), "two of its levels are the same in common words", told);
        }
        var trays = outcome.counts()
                .filter(c -> countsKept)
                .map(c -> new Brought.Trays(c, part.name(), pairs(part.levels(), levels)));
        brought.computeIfAbsent(
                        new Question(glossary.outcome(outcome.name()), outcome.of(), factor.name()),
                        q -> new ArrayList<>())
                .add(new Brought(
                        number,
                        levels,
                        part.values(),
                        part.estimates().stream().mapToDouble(e -> e).toArray(),
                        part.covariance().stream()
                                .map(r -> r.stream().mapToDouble(c -> c).toArray())
                                .toArray(double[][]::new),
                        trays));
        return true;
    }

    private static Map<String, String> pairs(List<String> own, List<String> common) {
        var pairs = new HashMap<String, String>();
        for (int i = 0; i < own.size(); i++) {
            pairs.put(own.get(i), common.get(i));
        }
        return pairs;
    }

    /** The first fault that keeps a factor out. */
    private Optional<String> fault(Contribution trial, String factor) {
        return trial.faults().stream()
                .filter(f -> UNFAIR.contains(f.kind()) && !choices.despite().contains(f.kind()))
                .filter(f -> f.factors().isEmpty() || f.factors().contains(factor))
                .findFirst()
                .map(f -> f.kind() + ": " + f.sentence());
    }

    private void leave(SharedTrial trial, String factor, String reason) {
        leftOut.add(new Pooled.LeftOut(trial.id(), trial.contribution().title(), factor, reason));
    }

    private boolean leave(SharedTrial trial, String factor, String reason, Set<String> told) {
        if (told.add(factor)) {
            leave(trial, factor, reason);
        }
        return false;
    }

    List<Line> lines() {
        return lines;
    }

    List<Pooled.LeftOut> leftOut() {
        return leftOut;
    }

    /** The smallest difference worth acting on that a pooled trial's plan names. */
    OptionalDouble worthwhile() {
        return worthwhile;
    }

    /** Whether counts are there tray by tray. */
    boolean countsKept() {
        return countsKept;
    }

    /** What trials say of a question, as they were drawn: by day, then by title and hash. */
    List<Brought> brought(Question question) {
        return brought.get(question).stream()
                .sorted(Comparator.comparing(
                        (Brought b) -> lines.get(b.trial()),
                        Comparator.comparing((Line l) -> l.drawn().orElse("9999"))
                                .thenComparing(Line::title)
                                .thenComparing(Line::id)))
                .toList();
    }

    /** The outcome that most trials ask for first, then the others, those of most trials first; its factors likewise. */
    List<Question> questions() {
        return brought.keySet().stream()
                .sorted(Comparator.comparingInt((Question q) -> -firstOutcomes.getOrDefault(q.outcome(), 0))
                        .thenComparing(q -> -mostOf(q.outcome()))
                        .thenComparing(Question::outcome)
                        .thenComparing(q -> q.of().orElse(""))
                        .thenComparing(q -> -brought.get(q).size())
                        .thenComparing(Question::factor))
                .toList();
    }

    private int mostOf(String outcome) {
        return brought.entrySet().stream()
                .filter(e -> e.getKey().outcome().equals(outcome))
                .mapToInt(e -> e.getValue().size())
                .max()
                .orElse(0);
    }

    /** The level that a question's levels are compared with: the one asked for, else that of most trials. */
    String against(Question question) {
        var wanted = glossary.against(question.factor());
        if (wanted.isPresent()) {
            return wanted.get();
        }
        var firsts = new HashMap<String, Integer>();
        brought.get(question).forEach(b -> firsts.merge(b.levels().get(0), 1, Integer::sum));
        return firsts.entrySet().stream()
                .min(Comparator.comparingInt((Map.Entry<String, Integer> e) -> -e.getValue())
                        .thenComparing(Map.Entry::getKey, LEVELS))
                .orElseThrow()
                .getKey();
    }

    /** Numbers by size, before words by letter. */
    static final Comparator<String> LEVELS = Comparator.comparing((String l) -> !Numbers.isNumber(l))
            .thenComparingDouble(l -> Numbers.isNumber(l) ? Double.parseDouble(l) : 0)
            .thenComparing(l -> l);
}
