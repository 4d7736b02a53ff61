package org.fairtray.analysis;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.fairtray.analysis.models.Tests;
import org.fairtray.design.Fault;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Words;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;

/**
 * One verdict a factor on how fast those that came out did so: <i>changed</i> where the factor's test is at or below alpha,
 * else <i>cannot tell</i>. No difference in days was said not to matter, so there is no third.
 */
final class SpeedVerdicts {
    /** More levels than this make a sentence no one reads to its end. */
    private static final int MOST_LEVELS = 3;

    private final Structure structure;
    private final Outcome.Count outcome;
    private final Tests tests;
    private final List<Effect> effects;
    private final List<Fault> faults;

    /** @param effects every level against the control, in days */
    SpeedVerdicts(Structure structure, Outcome.Count outcome, Tests tests, List<? extends Effect> effects) {
        this.structure = structure;
        this.outcome = outcome;
        this.tests = tests;
        this.effects = List.copyOf(effects);
        this.faults = Faults.of(structure);
    }

    List<Findings.Verdict> findings() {
        return structure.trial().factors().stream().map(this::verdict).toList();
    }

    /** A short sentence on how fast, to stand after one on how many. */
    String briefly(String name) {
        var factor = structure.trial().factor(name);
        if (!isChanged(factor)) {
            return "How fast: we cannot tell whether " + those() + " did so earlier or later.";
        }
        var clear = clear(factor);
        return clear.isEmpty()
                ? "How fast: levels of " + name + " differ in how soon " + those() + " did so ("
                        + Words.p(tests.of(name).p()) + ")."
                : "How fast: " + those() + " did so "
                        + largest(clear).map(e -> brief(factor, e)).collect(Collectors.joining("; ")) + ".";
    }

    private String brief(Factor factor, Effect e) {
        return Words.OF_DAYS.change(e.difference()) + " with " + level(factor, e.level()) + " than with "
                + level(factor, e.against()) + " (" + Words.p(e.pAdjusted()) + ")";
    }

    private double alpha() {
        return structure.trial().choices().alpha();
    }

    /** Such as "those that came out"; other columns than those of seeds coming out by their name. */
    private String those() {
        return List.of("germinated", "through").contains(outcome.name())
                ? "those that came out"
                : "those counted as " + outcome.name();
    }

    private List<Effect> own(Factor factor) {
        return effects.stream()
                .filter(e -> e.factor().equals(factor.name()) && e.difference() != null)
                .toList();
    }

    private List<Effect> clear(Factor factor) {
        return own(factor).stream()
                .filter(e -> e.pAdjusted() != null && e.pAdjusted() <= alpha())
                .toList();
    }

    private boolean isChanged(Factor factor) {
        Double p = tests.of(factor.name()).pVerdict();
        return p != null && p <= alpha() && !own(factor).isEmpty();
    }

    private Findings.Verdict verdict(Factor factor) {
        var test = tests.of(factor.name());
        if (isChanged(factor)) {
            return new Findings.Verdict(factor.name(), "changed", changed(factor) + dependence(factor));
        }
        String whether = "We cannot tell whether " + factor.name() + " changed how soon " + those() + " did so";
        return new Findings.Verdict(
                factor.name(),
                "cannot tell",
                test.pVerdict() == null || own(factor).isEmpty()
                        ? whether + ". " + untestable(factor, test)
                        : whether + ": " + differences(factor, own(factor)) + Verdicts.heldBack(test, alpha())
                                + dependence(factor));
    }

    private String untestable(Factor factor, Findings.TermTest test) {
        String otherwise = test.denominatorDf() == null
                ? "Too few trays are left to hold a difference against."
                : "Trays treated alike gave exactly the same, so there is no spread to hold a difference against.";
        return faults.stream()
                .filter(f -> f.factors().contains(factor.name()))
                .map(Fault::sentence)
                .findFirst()
                .orElse(otherwise);
    }

    private String changed(Factor factor) {
        var clear = clear(factor);
        String start = capital(factor.name());
        String soon = start + " changed how soon " + those() + " did so: ";
        if (clear.isEmpty()) {
            return soon + "its levels differ among themselves ("
                    + Words.p(tests.of(factor.name()).p())
                    + "), though none stands out from the level they are held against.";
        }
        var directions = clear.stream()
                .map(e -> Words.OF_DAYS.direction(e.difference()))
                .distinct()
                .toList();
        return (directions.size() == 1 ? start + " made " + those() + " do so " + directions.get(0) + ": " : soon)
                + differences(factor, clear)
                + open(factor, clear);
    }

    private String open(Factor factor, List<Effect> clear) {
        var open = own(factor).stream()
                .filter(e -> !clear.contains(e))
                .map(e -> level(factor, e.level()) + ", " + Words.OF_DAYS.change(e.difference()))
                .toList();
        return open.isEmpty()
                ? ""
                : " Not clear against " + level(factor, clear.get(0).against()) + ": " + String.join("; ", open) + ".";
    }

    private String differences(Factor factor, List<Effect> several) {
        boolean many = several.size() > MOST_LEVELS;
        return largest(several).map(e -> difference(factor, e)).collect(Collectors.joining("; ")) + "."
                + (many ? " The other levels differ less (see the table)." : "");
    }

    /** The largest differences, in the order of levels where all are said. */
    private static Stream<Effect> largest(List<Effect> several) {
        return several.size() <= MOST_LEVELS
                ? several.stream()
                : several.stream()
                        .sorted(Comparator.comparingDouble(e -> -Math.abs(e.difference())))
                        .limit(MOST_LEVELS);
    }

    private String difference(Factor factor, Effect e) {
        String kind = factor.levels().size() > 2 ? "; adjusted " : "; ";
        String sure = e.low() == null
                ? ""
                : " (" + Math.round(100 * (1 - alpha())) + " % interval " + Words.OF_DAYS.range(e.low(), e.high())
                        + kind + Words.p(e.pAdjusted()) + ")";
        return "mean time " + Words.days(e.value()) + " with " + level(factor, e.level()) + " against "
                + Words.days(e.againstValue()) + " with " + level(factor, e.against()) + ", "
                + Words.OF_DAYS.change(e.difference()) + sure;
    }

    private String dependence(Factor factor) {
        var with = structure.terms().stream()
                .filter(t -> !t.isMain() && t.factors().contains(factor.name()))
                .filter(t -> tests.of(t).pVerdict() != null && tests.of(t).pVerdict() <= alpha())
                .flatMap(t -> t.factors().stream())
                .filter(f -> !f.equals(factor.name()))
                .distinct()
                .toList();
        return with.isEmpty()
                ? ""
                : " This is the average: how much it does depends on " + String.join(" and ", with) + ".";
    }

    private static String level(Factor factor, String level) {
        return factor.unit().isPresent() ? factor.describe(level) : factor.name() + " " + level;
    }

    private static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
