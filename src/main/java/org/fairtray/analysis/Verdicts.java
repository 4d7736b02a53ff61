package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.fairtray.analysis.models.Tests;
import org.fairtray.design.Fault;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Effect;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Interval;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;

/**
 * One verdict a factor, in a sentence with numbers: <i>no worthwhile change</i> where the whole interval of every level's
 * difference lies within plus or minus what is worthwhile; else <i>changed</i> where the factor's test is at or below
 * alpha; else <i>cannot tell</i>.
 */
final class Verdicts {
    /** More levels than this against the control make a sentence no one reads to its end. */
    private static final int MOST_LEVELS = 4;

    private final Structure structure;
    private final String outcome;
    private final boolean rates;
    private final Tests tests;
    private final Effects effects;
    private final Map<String, List<Effect>> found = new HashMap<>();
    private final Words.Differences words;

    Verdicts(Structure structure, String outcome, boolean rates, Tests tests, Effects effects) {
        this.structure = structure;
        this.outcome = rates ? "how many were " + outcome : outcome;
        this.rates = rates;
        this.tests = tests;
        this.effects = effects;
        this.words = rates ? Words.OF_RATES : Words.OF_MEASURES;
    }

    /** Every level of every factor against its control. */
    List<Effect> effects() {
        return structure.trial().factors().stream()
                .flatMap(f -> own(f).stream())
                .toList();
    }

    /** Those of one factor. Worked out when first asked for: with many levels it takes longer than all the rest. */
    private List<Effect> own(Factor factor) {
        return found.computeIfAbsent(factor.name(), f -> effects.ofFactor(factor));
    }

    /** Whether a factor's verdict is "changed". */
    boolean isChanged(Factor factor) {
        var test = tests.of(factor.name());
        return test.pVerdict() != null
                && test.pVerdict() <= alpha()
                && !isUntestable(own(factor), test)
                && !withinWorthwhile(own(factor));
    }

    private static boolean isUntestable(List<Effect> own, Findings.TermTest test) {
        return own.isEmpty() || test.pVerdict() == null || own.stream().allMatch(e -> e.difference() == null);
    }

    /** The verdicts, given the faults of the layout. */
    List<Findings.Verdict> findings(List<Fault> faults) {
        return structure.trial().factors().stream().map(f -> verdict(f, faults)).toList();
    }

    private double alpha() {
        return structure.trial().choices().alpha();
    }

    /** What is worthwhile is said as a rate, so it says nothing of a measure. */
    private OptionalDouble worthwhile() {
        return rates ? structure.trial().expectations().worthwhile() : OptionalDouble.empty();
    }

    private Findings.Verdict verdict(Factor factor, List<Fault> faults) {
        var own = own(factor);
        var test = tests.of(factor.name());
        if (isUntestable(own, test)) {
            return new Findings.Verdict(factor.name(), "cannot tell", untestable(factor, own, test, faults));
        }
        if (withinWorthwhile(own)) {
            return new Findings.Verdict(factor.name(), "no worthwhile change", noWorthwhileChange(factor, own, test));
        }
        return isChanged(factor)
                ? new Findings.Verdict(factor.name(), "changed", changed(factor, own, test))
                : new Findings.Verdict(factor.name(), "cannot tell", cannotTell(factor, own, test));
    }

    private boolean withinWorthwhile(List<Effect> own) {
        return worthwhile().isPresent()
                && own.stream()
                        .allMatch(e -> e.low() != null
                                && new Interval(e.verdictLow(), e.verdictHigh())
                                        .inside(worthwhile().getAsDouble()));
    }

    private String untestable(Factor factor, List<Effect> own, Findings.TermTest test, List<Fault> faults) {
        boolean averaged = own.stream().anyMatch(e -> e.difference() != null);
        String otherwise = test.denominatorDf() == null
                ? "Too few trays are left to hold a difference against."
                : averaged || own.isEmpty()
                        ? "Trays treated alike gave exactly the same, so there is no spread to hold a difference against."
                        : "Its levels were sown with different levels of the other factors, so averages of theirs can't be"
                                + " compared.";
        String reason = faults.stream()
                .filter(f -> f.factors().contains(factor.name()))
                .map(Fault::sentence)
                .findFirst()
                .orElse(otherwise);
        String seen = own.stream()
                .filter(e -> e.difference() != null)
                .map(e -> rates(factor, e))
                .collect(Collectors.joining("; "));
        return "We cannot tell whether " + factor.name() + " changed " + outcome + ". " + reason
                + (seen.isEmpty() ? "" : " What was seen: " + seen + ".");
    }

    private String changed(Factor factor, List<Effect> own, Findings.TermTest test) {
        var clear = own.stream()
                .filter(e -> e.pAdjusted() != null && e.pAdjusted() <= alpha())
                .toList();
        String start = capital(factor.name()) + " changed " + outcome + ": ";
        if (clear.isEmpty()) {
            return start + "its levels differ among themselves (" + Words.p(test.p())
                    + "), though none stands out from "
                    + level(factor, own.get(0).against()) + " alone." + dependence(factor);
        }
        return start + differences(factor, clear) + others(factor, own, clear) + dependence(factor);
    }

    private String others(Factor factor, List<Effect> own, List<Effect> clear) {
        var open = own.stream()
                .filter(e -> !clear.contains(e) && e.difference() != null)
                .map(e -> level(factor, e.level()) + ", " + words.change(e.difference()) + interval(e))
                .toList();
        return open.isEmpty()
                ? ""
                : " Not clear against " + level(factor, own.get(0).against()) + ": " + String.join("; ", open) + ".";
    }

    private String noWorthwhileChange(Factor factor, List<Effect> own, Findings.TermTest test) {
        String small = test.p() <= alpha() ? " There is a change, but a small one." : "";
        return capital(factor.name()) + " made no worthwhile change to " + outcome + ": "
                + differences(factor, own) + " A difference below "
                + Words.points(worthwhile().getAsDouble()) + " was said not to matter."
                + small
                + dependence(factor);
    }

    private String cannotTell(Factor factor, List<Effect> own, Findings.TermTest test) {
        return "We cannot tell whether " + factor.name() + " changed " + outcome + ": "
                + differences(factor, own)
                + whatIsOpen(own) + heldBack(test, alpha()) + dependence(factor);
    }

    /** Why a verdict is withheld though the factor's own test alone would have allowed it. */
    static String heldBack(Findings.TermTest test, double alpha) {
        if (test.p() == null || test.p() > alpha) {
            return "";
        }
        return test.pAnova() != null && test.pAnova() > alpha
                ? " The test on the odds (" + Words.p(test.p()) + ") and the analysis of variance of the rates ("
                        + Words.p(test.pAnova()) + ") don't agree, and a verdict needs both."
                : " Units treated alike happened to differ less than seeds alone would make them, and a verdict does not"
                        + " count on that luck.";
    }

    private String whatIsOpen(List<Effect> own) {
        boolean both = own.stream().anyMatch(e -> e.low() != null && e.low() < 0 && e.high() > 0);
        return both ? " A rise and a fall are both still possible." : "";
    }

    /** Whether an interaction says that the average over other factors is not the whole answer. */
    private String dependence(Factor factor) {
        var with = matteringInteractions().stream()
                .filter(t -> t.factors().contains(factor.name()))
                .flatMap(t -> t.factors().stream())
                .filter(f -> !f.equals(factor.name()))
                .distinct()
                .toList();
        return with.isEmpty()
                ? ""
                : " This is the average: how much it does depends on " + String.join(" and ", with) + " (see below).";
    }

    private List<Term> matteringInteractions() {
        return structure.terms().stream()
                .filter(t -> !t.isMain())
                .filter(t -> tests.of(t).p() != null && tests.of(t).p() <= alpha())
                .toList();
    }

    /** What each interaction at or below alpha looks like. */
    List<Findings.InteractionNote> interactions() {
        return matteringInteractions().stream()
                .map(t -> new Findings.InteractionNote(
                        t.name(), t.factors(), tests.of(t).p(), interaction(t)))
                .toList();
    }

    private String interaction(Term term) {
        String start = capital(String.join(" and ", term.factors())) + " act together on " + outcome + " ("
                + Words.p(tests.of(term).p()) + ")";
        if (term.factors().size() > 2) {
            return start + ": see the rates by treatment.";
        }
        var one = structure.trial().factor(term.factors().get(0));
        var other = structure.trial().factor(term.factors().get(1));
        String control = structure.trial().controlLevel(one);
        var parts = new ArrayList<String>();
        for (String within : structure.trial().levelsFromControl(other)) {
            var held = new Treatment(Map.of(other.name(), within));
            String differences = structure.trial().levelsFromControl(one).stream()
                    .skip(1)
                    .flatMap(l -> effects.measured(one, l, control, held).stream()
                            .map(m -> level(one, l) + " made "
                                    + words.change(m.comparison().difference())
                                    + (m.sure()
                                            ? " ("
                                                    + words.range(
                                                            m.low(m.quantile(alpha())), m.high(m.quantile(alpha())))
                                                    + ")"
                                            : "")))
                    .collect(Collectors.joining(", "));
            if (!differences.isEmpty()) {
                parts.add("with " + level(other, within) + ", " + differences);
            }
        }
        return start + ". Against " + level(one, control) + ": " + String.join("; ", parts) + ".";
    }

    /** Every difference, or of many the largest, as one sentence or two. */
    private String differences(Factor factor, List<Effect> several) {
        var known = several.stream()
                .filter(e -> e.difference() != null)
                .sorted(Comparator.comparingDouble(e -> -Math.abs(e.difference())))
                .toList();
        boolean many = known.size() > MOST_LEVELS;
        var said = many
                ? known.subList(0, MOST_LEVELS - 1)
                : several.stream().filter(known::contains).toList();
        String others = many
                ? " The other " + (known.size() - said.size()) + " levels differ less from "
                        + level(factor, known.get(0).against()) + " (see the table)."
                : "";
        return said.stream().map(e -> difference(factor, e)).collect(Collectors.joining("; ")) + "." + others;
    }

    private String difference(Factor factor, Effect e) {
        String kind = factor.levels().size() > 2 ? "; adjusted " : "; ";
        String sure = e.pAdjusted() == null ? "" : kind + Words.p(e.pAdjusted());
        return rates(factor, e) + ", " + words.change(e.difference()) + interval(e, sure);
    }

    private String rates(Factor factor, Effect e) {
        return value(e, true) + " with " + level(factor, e.level()) + " against " + value(e, false) + " with "
                + level(factor, e.against());
    }

    private String interval(Effect e) {
        return interval(e, "");
    }

    private String interval(Effect e, String more) {
        if (e.low() == null) {
            return "";
        }
        return " (" + Math.round(100 * (1 - alpha())) + " % interval " + words.range(e.low(), e.high()) + more + ")";
    }

    private String value(Effect e, boolean own) {
        var value = own ? e.value() : e.againstValue();
        return e instanceof Effect.OnRate ? Words.percent(value) : Words.measure(value);
    }

    private static String level(Factor factor, String level) {
        return factor.unit().isPresent() ? factor.describe(level) : factor.name() + " " + level;
    }

    private static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
