package org.fairtray.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.fairtray.findings.Words;
import org.fairtray.sizing.ClosedForm;
import org.fairtray.sizing.Sizing;

/** The sizes of a trial for people, as text: what to do, what can be seen, what it hangs on, and the exact words last. */
public final class SizingText {
    /** Chances that differ by less are the same to a grower. */
    private static final double SAME = 0.005;

    private final Sizing sizing;
    private final SizingWords words;
    private final List<String> lines = new ArrayList<>();

    private SizingText(Sizing sizing) {
        this.sizing = sizing;
        this.words = new SizingWords(sizing);
    }

    /** As lines of 80 letters at most, save for long names. */
    public static List<String> of(Sizing sizing) {
        var text = new SizingText(sizing);
        text.write();
        return List.copyOf(text.lines);
    }

    private void write() {
        lines.add(sizing.trial());
        say(sizing.outcome() + ": " + sizing.trays() + (sizing.trays() == 1 ? " tray" : " trays")
                + (sizing.replicates() == null ? "" : ", " + sizing.replicates() + " of each treatment") + ", "
                + sizing.seedsPerTray() + " seeds counted in each.");
        lines.add("");
        say(sizing.advice());
        if (sizing.closedForm().stream().anyMatch(c -> c.power() != null)) {
            seen();
            simulated();
            needed();
            seeds();
            correlations();
            places();
        }
        if (sizing.earlier() != null) {
            lines.addAll(SpendingText.of(sizing.earlier()));
        }
        if (sizing.spending() != null) {
            lines.addAll(SpendingText.of(sizing));
        }
        if (!sizing.assumptions().isEmpty()) {
            assumptions();
        }
        mind();
        exact();
    }

    private void say(String sentence) {
        lines.addAll(Columns.wrap(sentence, "", ""));
    }

    private void heading(String text) {
        lines.add("");
        lines.add(text);
    }

    private void table(List<String> heads, List<List<String>> rows) {
        lines.addAll(Columns.table(heads, rows));
    }

    private void seen() {
        heading("What it can see");
        table(
                List.of(
                        "",
                        "finds\n" + words.worthwhile(),
                        "smallest change\nfound in " + Words.percent(sizing.wanted()),
                        "interval of\na difference",
                        "no change:\ncan say so"),
                sizing.closedForm().stream().map(this::seen).toList());
        if (sizing.closedForm().stream().anyMatch(c -> c.factors().size() > 1)) {
            say(SizingWords.INTERACTION);
        }
    }

    private List<String> seen(ClosedForm closed) {
        return List.of(
                closed.term(),
                SizingWords.chance(closed.power()),
                SizingWords.points(closed.smallestChange()),
                closed.halfWidth() == null ? SizingWords.NONE : "± " + Words.points(closed.halfWidth()),
                SizingWords.chance(closed.noChange()));
    }

    private void simulated() {
        if (sizing.simulations() == 0) {
            return;
        }
        var ways = sizing.terms().stream().map(Sizing.TermPower::by).distinct().toList();
        heading("The same by up to " + sizing.simulations() + " invented trials each, analysed as analyse does");
        var heads = new ArrayList<>(List.of(""));
        heads.addAll(ways);
        table(
                heads,
                sizing.terms().stream()
                        .map(Sizing.TermPower::term)
                        .distinct()
                        .map(t -> Stream.concat(Stream.of(t), ways.stream().map(w -> words.simulated(t, w, "-")))
                                .toList())
                        .toList());
    }

    private void needed() {
        heading("What " + words.worthwhile() + " would take, found in " + Words.percent(sizing.wanted()));
        table(
                List.of("", "given to", "a level\nhas", "a level\nneeds", "trays\nin all", "place\nholds it"),
                sizing.needed().stream()
                        .map(n -> Stream.concat(
                                        Stream.of(n.factor(), n.unit(), SizingWords.units(n)),
                                        SizingWords.needs(n).stream())
                                .toList())
                        .toList());
    }

    private void seeds() {
        heading("With so many seeds in a frame");
        acrossFactors(
                "finds " + words.worthwhile(),
                sizing.seeds(),
                s -> Integer.toString(s.seedsPerFrame()),
                Sizing.Seeds::terms,
                c -> SizingWords.chance(c.power()));
    }

    private void correlations() {
        heading("If the seeds of a tray are less or more alike (tray_correlation)");
        both(
                sizing.sensitivity().stream().filter(this::asAssumed).toList(),
                s -> SizingWords.number(s.trayCorrelation()));
        say(words.correlation());
    }

    private boolean asAssumed(Sizing.Sensitivity one) {
        return one.placeSd().equals(sizing.sensitivity().get(0).placeSd());
    }

    private void places() {
        var cases = sizing.sensitivity().stream().filter(s -> !asAssumed(s)).toList();
        if (cases.isEmpty()) {
            return;
        }
        var levels = cases.get(0).placeSd().keySet().stream().sorted().toList();
        heading("If places differ less or more (place_sd of " + String.join(", ", levels) + ")");
        var all = new ArrayList<>(cases);
        all.add(sizing.sensitivity().stream()
                .filter(s -> asAssumed(s) && s.trayCorrelation() == words.assumed("tray_correlation"))
                .findFirst()
                .orElseThrow());
        all.sort(Comparator.comparingDouble(
                s -> s.placeSd().values().stream().mapToDouble(v -> v).sum()));
        if (all.stream().allMatch(s -> same(s, all.get(0)))) {
            say("That changes nothing: every factor is compared within them.");
            return;
        }
        both(
                all,
                s -> levels.stream()
                        .map(l -> SizingWords.number(s.placeSd().getOrDefault(l, 0.0)))
                        .collect(Collectors.joining(", ")));
    }

    private boolean same(Sizing.Sensitivity one, Sizing.Sensitivity other) {
        return IntStream.range(0, one.terms().size())
                .allMatch(t -> Math.abs(one.terms().get(t).power()
                                - other.terms().get(t).power())
                        < SAME);
    }

    private void both(List<Sizing.Sensitivity> cases, Function<Sizing.Sensitivity, String> head) {
        acrossFactors(
                "finds " + words.worthwhile(),
                cases,
                head,
                Sizing.Sensitivity::terms,
                c -> SizingWords.chance(c.power()));
        acrossFactors(
                "smallest change",
                cases,
                head,
                Sizing.Sensitivity::terms,
                c -> SizingWords.points(c.smallestChange())
                        .replace(" points", "")
                        .replace(" point", ""));
    }

    /** A row for each factor, a column for each case. */
    private <T> void acrossFactors(
            String what,
            List<T> cases,
            Function<T, String> head,
            Function<T, List<Sizing.Chance>> terms,
            Function<Sizing.Chance, String> cell) {
        var heads = new ArrayList<>(List.of(what));
        cases.forEach(c -> heads.add(head.apply(c)));
        var rows = new ArrayList<List<String>>();
        for (int t = 0; t < sizing.closedForm().size(); t++) {
            int term = t;
            if (sizing.closedForm().get(t).factors().size() == 1) {
                var row = new ArrayList<>(List.of(sizing.closedForm().get(t).term()));
                cases.forEach(c -> row.add(cell.apply(terms.apply(c).get(term))));
                rows.add(row);
            }
        }
        table(heads, rows);
    }

    private void assumptions() {
        heading("Taken for granted");
        sizing.assumptions()
                .forEach(a -> lines.addAll(Columns.wrap(
                        a.key() + " " + SizingWords.number(a.value())
                                + (a.planned() ? " (the plan)" : ": " + a.source()),
                        "  ",
                        "    ")));
    }

    private void mind() {
        var rest = words.notes();
        if (!rest.isEmpty()) {
            lines.add("");
            rest.forEach(n -> say("Mind: " + n));
        }
    }

    private void exact() {
        if (sizing.closedForm().isEmpty()) {
            return;
        }
        heading("For statisticians");
        sizing.closedForm().forEach(c -> lines.addAll(Columns.wrap(exact(c), "  ", "    ")));
        say("The interval is the mean one of " + Math.round(100 * (1 - sizing.alpha()))
                + " % where the factor does nothing, Dunnett's for several levels; \"can say so\" is the chance that all of it"
                + " lies within worthwhile (two one-sided tests).");
    }

    private String exact(ClosedForm c) {
        return c.term() + ": F with " + c.df() + " and " + SizingWords.number(c.denominatorDf())
                + " degrees of freedom in the stratum "
                + c.stratum() + (c.nonCentrality() == null ? "" : ", λ = " + Words.measure(c.nonCentrality()))
                + (c.twoProportions() == null
                        ? "."
                        : "; as two proportions with the design effect " + SizingWords.chance(c.twoProportions())
                                + ".");
    }
}
