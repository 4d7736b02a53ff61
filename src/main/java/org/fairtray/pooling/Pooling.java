package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import org.fairtray.findings.Pooled;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.comparisons.Holm;
import org.fairtray.statistics.pooling.RandomEffects;
import org.fairtray.statistics.pooling.Study;

/** The trials of many growers analysed together. */
public final class Pooling {
    private final Gathered gathered;
    private final PoolingChoices choices;
    private final Set<Integer> used = new TreeSet<>();
    private final List<Pooled.Verdict> verdicts = new ArrayList<>();
    private final List<Pooled.Effect> effects = new ArrayList<>();
    private final List<Pooled.Slope> slopes = new ArrayList<>();

    private Pooling(Gathered gathered, PoolingChoices choices) {
        this.gathered = gathered;
        this.choices = choices;
    }

    /**
     * Pools trials. They are gone through twice: once for their words, once for what they bring.
     *
     * @param version of the program
     */
    public static Pooled of(SharedTrials trials, PoolingChoices choices, String version) {
        var glossary = Glossary.of(choices.names(), trials);
        return new Pooling(Gathered.of(glossary, trials, choices), choices).pooled(glossary, version);
    }

    /** Names that may mean the same in some trials, for a grower to agree to. */
    public static Proposal proposal(SharedTrials trials, PoolingChoices choices) {
        return Proposal.of(Glossary.of(choices.names(), trials));
    }

    private Pooled pooled(Glossary glossary, String version) {
        var questions = gathered.questions();
        questions.forEach(q -> add(
                q,
                glossary,
                q.outcome().equals(questions.get(0).outcome())
                        && q.of().equals(questions.get(0).of())));
        var lines = used.stream().map(gathered.lines()::get).toList();
        var farms = new HashSet<String>();
        lines.forEach(l -> farms.add(l.farm()));
        return new Pooled(
                version,
                lines.size(),
                farms.size(),
                lines.stream().mapToInt(Gathered.Line::trays).sum(),
                verdicts,
                effects,
                slopes,
                lines.stream()
                        .sorted(Comparator.comparing(
                                        (Gathered.Line l) -> l.drawn().orElse("9999"))
                                .thenComparing(Gathered.Line::title)
                                .thenComparing(Gathered.Line::id))
                        .map(l -> new Pooled.Used(
                                l.id(), l.title(), l.farm(), l.drawn().orElse(null), l.trays(), l.conditions()))
                        .toList(),
                gathered.leftOut(),
                notes(glossary, lines.size(), farms.size()));
    }

    private List<String> notes(Glossary glossary, int trials, int farms) {
        var notes = new ArrayList<>(glossary.notes());
        Proposal.of(glossary)
                .reasons()
                .forEach(r -> notes.add("Not taken as the same: " + r + ". --propose writes such names into a file."));
        if (farms < trials) {
            notes.add(
                    "Some farms sent several trials. The mean over trials takes each for one of its own, so its interval may"
                            + " be too short; the model of all trays knows farms.");
        }
        if (!gathered.countsKept()) {
            notes.add("With more than " + choices.mostTrays()
                    + " trays the model of all trays was left out; --most-trays N asks for it.");
        }
        return notes;
    }

    private void add(Question question, Glossary glossary, boolean first) {
        var all = gathered.brought(question);
        var against = gathered.against(question);
        var levels = levels(all, against);
        if (levels.isEmpty()) {
            return;
        }
        var unit = glossary.unitOf(question.factor());
        var pooled = levels.stream()
                .map(l -> new PooledLevel(question, unit, l, against, all, gathered, choices.alpha()))
                .toList();
        double[] adjusted =
                Holm.adjust(pooled.stream().mapToDouble(PooledLevel::verdictP).toArray());
        var oneStage = oneStage(all, against, levels);
        var own = new ArrayList<Pooled.Effect>();
        for (int i = 0; i < levels.size(); i++) {
            own.add(pooled.get(i).effect(adjusted[i], oneStage.get(levels.get(i))));
        }
        effects.addAll(own);
        all.stream()
                .filter(b -> levels.stream().anyMatch(l -> b.compares(l, against)))
                .forEach(b -> used.add(b.trial()));
        if (first) {
            var worthwhile = choices.worthwhile().isPresent() ? choices.worthwhile() : gathered.worthwhile();
            verdicts.add(new PooledVerdicts(own, worthwhile, choices.alpha()).verdict());
        }
        slope(question, unit, all).ifPresent(slopes::add);
    }

    private Map<String, Pooled.OneStage> oneStage(List<Brought> all, String against, List<String> levels) {
        var from = new ArrayList<>(List.of(against));
        from.addAll(levels);
        return OneStage.of(all, gathered.lines(), from, choices.alpha());
    }

    /** The levels that some trial compares with the one asked for. */
    private static List<String> levels(List<Brought> all, String against) {
        return all.stream()
                .filter(b -> b.levels().contains(against))
                .flatMap(b -> b.levels().stream())
                .filter(l -> !l.equals(against))
                .distinct()
                .sorted(Gathered.LEVELS)
                .toList();
    }

    private Optional<Pooled.Slope> slope(Question question, Optional<String> unit, List<Brought> all) {
        var lines = all.stream().map(Brought::slope).flatMap(Optional::stream).toList();
        boolean several =
                all.stream().flatMap(b -> b.levels().stream()).distinct().count() > 2;
        return lines.size() < 2 || !several ? Optional.empty() : Optional.of(slope(question, unit.orElse(null), lines));
    }

    private Pooled.Slope slope(Question question, String unit, List<Study> studies) {
        var mean = RandomEffects.of(studies, choices.alpha());
        var prediction = mean.prediction();
        return new Pooled.Slope(
                question.factor(),
                unit,
                question.outcome(),
                question.scale(),
                studies.size(),
                mean.estimate(),
                orNull(mean.standardError()),
                mean.low(),
                mean.high(),
                mean.p(),
                orNull(mean.tauSquared()),
                orNull(mean.iSquared()),
                orNull(mean.q()),
                prediction.map(Interval::low).orElse(null),
                prediction.map(Interval::high).orElse(null),
                PooledLevel.METHOD);
    }

    static Double orNull(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
