package org.fairtray.pooling;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.fairtray.findings.Pooled;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Interval;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.statistics.comparisons.Holm;
import org.fairtray.statistics.pooling.Moderators;
import org.fairtray.statistics.pooling.Study;
import org.fairtray.trial.Numbers;

/**
 * What may explain that effects differ from trial to trial: each condition that trials name, alone. Nobody dealt conditions
 * out by chance, so what goes with an effect needn't have made it.
 */
final class Explaining {
    /** Deeks, Higgins and Altman, Cochrane Handbook (2019), section 10.11.5.1: at least ten trials for each. */
    private static final int ENOUGH = 10;

    private static final int LEAST = 4;
    private static final int MOST_WORDS = 8;

    private final List<Study> studies;
    private final List<Map<String, String>> conditions;
    private final double alpha;

    Explaining(List<Study> studies, List<Gathered.Line> lines, double alpha) {
        this.studies = studies;
        this.conditions = lines.stream().map(Gathered.Line::conditions).toList();
        this.alpha = alpha;
    }

    /** One for each condition that differs between trials and repeats; their p adjusted together. */
    List<Pooled.Moderator> moderators() {
        var names = new TreeSet<String>();
        conditions.forEach(c -> names.addAll(c.keySet()));
        var found =
                names.stream().map(this::moderator).flatMap(Optional::stream).toList();
        var tested = found.stream().filter(m -> m.p() != null).toList();
        double[] adjusted =
                Holm.adjust(tested.stream().mapToDouble(Pooled.Moderator::p).toArray());
        var all = new ArrayList<Pooled.Moderator>();
        for (var moderator : found) {
            int at = tested.indexOf(moderator);
            all.add(said(moderator, at < 0 ? null : adjusted[at]));
        }
        return all;
    }

    private Optional<Pooled.Moderator> moderator(String name) {
        int[] known = IntStream.range(0, studies.size())
                .filter(i -> conditions.get(i).containsKey(name))
                .toArray();
        var words =
                IntStream.of(known).mapToObj(i -> conditions.get(i).get(name)).toList();
        boolean numbers = words.stream().allMatch(Numbers::isNumber)
                && words.stream().distinct().count() > 2;
        return numbers ? byNumber(name, known) : byWord(name, known);
    }

    private List<Study> some(int[] which) {
        return IntStream.of(which).mapToObj(studies::get).toList();
    }

    private Optional<Pooled.Moderator> byNumber(String name, int[] known) {
        if (known.length < LEAST) {
            return Optional.empty();
        }
        double[] numbers = IntStream.of(known)
                .mapToDouble(i -> Double.parseDouble(conditions.get(i).get(name)))
                .toArray();
        return Moderators.of(some(known), List.of(new ModelMatrix.Column(name, numbers)), alpha)
                .filter(m -> m.settled() && m.dropped().isEmpty())
                .map(m -> finding(name, "number", known.length, m, List.of(group("", known.length, m, 1))));
    }

    private Optional<Pooled.Moderator> byWord(String name, int[] known) {
        var byWord = new TreeMap<String, List<Integer>>(Gathered.LEVELS);
        for (int i : known) {
            byWord.computeIfAbsent(conditions.get(i).get(name), w -> new ArrayList<>())
                    .add(i);
        }
        // One trial of its kind can't tell what its kind does from what it does itself.
        byWord.values().removeIf(trials -> trials.size() < 2);
        int trials = byWord.values().stream().mapToInt(List::size).sum();
        if (byWord.size() < 2 || byWord.size() > MOST_WORDS || trials < LEAST) {
            return Optional.empty();
        }
        int[] which = byWord.values().stream()
                .flatMap(List::stream)
                .mapToInt(Integer::intValue)
                .toArray();
        return Moderators.of(some(which), indicators(byWord, which, null), alpha)
                .filter(Moderators::settled)
                .map(m -> finding(name, "words", trials, m, groups(byWord, which)));
    }

    /** The mean of each word's trials, the variance between trials shared: the intercept when that word is left without a column. */
    private List<Pooled.Group> groups(Map<String, List<Integer>> byWord, int[] which) {
        var groups = new ArrayList<Pooled.Group>();
        byWord.forEach((word, trials) -> Moderators.of(some(which), indicators(byWord, which, word), alpha)
                .ifPresent(m -> groups.add(group(word, trials.size(), m, 0))));
        return groups;
    }

    private static List<ModelMatrix.Column> indicators(Map<String, List<Integer>> byWord, int[] which, String without) {
        var columns = new ArrayList<ModelMatrix.Column>();
        var left = without == null ? byWord.keySet().iterator().next() : without;
        byWord.forEach((word, trials) -> {
            if (!word.equals(left)) {
                var its = new HashSet<>(trials);
                columns.add(new ModelMatrix.Column(
                        word,
                        IntStream.of(which)
                                .mapToDouble(i -> its.contains(i) ? 1 : 0)
                                .toArray()));
            }
        });
        return columns;
    }

    private static Pooled.Group group(String word, int trials, Moderators fit, int coefficient) {
        Interval interval = fit.interval(coefficient);
        return new Pooled.Group(word, trials, fit.coefficient(coefficient), interval.low(), interval.high());
    }

    private static Pooled.Moderator finding(
            String name, String kind, int trials, Moderators fit, List<Pooled.Group> groups) {
        var together = fit.together();
        var explained = fit.explained();
        return new Pooled.Moderator(
                name,
                kind,
                trials,
                together.map(Moderators.Together::f).orElse(null),
                together.map(Moderators.Together::numerator).orElse(0),
                together.map(t -> (double) t.denominator()).orElse(null),
                together.map(Moderators.Together::p).orElse(null),
                null,
                fit.tauSquared(),
                explained.isPresent() ? explained.getAsDouble() : null,
                groups,
                "");
    }

    private Pooled.Moderator said(Pooled.Moderator m, Double pAdjusted) {
        boolean shows = pAdjusted != null && pAdjusted <= alpha;
        String few = m.trials() < ENOUGH * Math.max(1, m.df())
                ? " With " + m.trials() + " trials this is a hint at most."
                : "";
        String what = shows
                ? "The effect goes with " + m.name() + " (" + Words.p(pAdjusted)
                        + ", adjusted for all that was looked at)."
                        + " Nobody dealt " + m.name()
                        + " out to farms by chance, so something else that goes with it may be the reason: try it in one"
                        + " trial."
                : "The effect isn't seen to go with " + m.name()
                        + (pAdjusted == null ? "." : " (" + Words.p(pAdjusted) + ").");
        return new Pooled.Moderator(
                m.name(),
                m.kind(),
                m.trials(),
                m.f(),
                m.df(),
                m.denominatorDf(),
                m.p(),
                pAdjusted,
                m.tau2(),
                m.explained(),
                m.groups(),
                what + few);
    }
}
