package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.fairtray.findings.Words;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.ReportView.Fact;
import org.fairtray.report.pages.SizingView;
import org.fairtray.report.pages.Table;
import org.fairtray.sizing.Sizing;

/** size.html: how many trays, on one page in the report's look. */
public final class SizingPage {
    private final Sizing sizing;
    private final SizingWords words;
    private final String version;

    private SizingPage(Sizing sizing, String version) {
        this.sizing = sizing;
        this.words = new SizingWords(sizing);
        this.version = version;
    }

    /** The page of a trial's sizes. */
    public static SizingPage of(Sizing sizing, String version) {
        return new SizingPage(sizing, version);
    }

    /** The whole page. */
    public String html() {
        return Report.rendered("report/size.jte", view());
    }

    private SizingView view() {
        var facts = new ArrayList<Fact>();
        facts.add(new Fact("Counted", sizing.outcome()));
        facts.add(new Fact("Trays", Integer.toString(sizing.trays())));
        if (sizing.replicates() != null) {
            facts.add(new Fact("Of each treatment", Integer.toString(sizing.replicates())));
        }
        facts.add(new Fact("Seeds counted in a tray", Integer.toString(sizing.seedsPerTray())));
        var parts = new ArrayList<Group>();
        var groups = new ArrayList<Group>();
        boolean known = sizing.closedForm().stream().anyMatch(c -> c.power() != null);
        if (known) {
            facts.add(new Fact("Worth finding", words.worthwhile()));
            facts.add(new Fact("How often", Words.percent(sizing.wanted())));
            parts.add(part("see", "What it can see", seen(), simulated(), assured()));
            parts.add(part("take", "What it would take", needed()));
        }
        var spending = Optional.ofNullable(sizing.spending()).map(s -> new SpendingFigures(sizing));
        spending.ifPresent(s -> parts.add(s.all()));
        if (known) {
            groups.add(group("seeds", "With more or fewer seeds", false, seeds()));
            groups.add(group("guesses", "How much it hangs on the guesses", false, correlations(), places()));
        }
        groups.add(group("granted", "What was taken for granted", false, granted()));
        spending.ifPresent(s -> groups.add(group("prices", "Costs", false, s.costs())));
        groups.add(group("exact", "For statisticians", true, exact()));
        return new SizingView(
                Report.style(), sizing.trial(), facts, sizing.advice(), words.notes(), parts, groups, version);
    }

    private static Group part(String id, String heading, Table... tables) {
        return new Group(id, heading, "", "", false, List.of(), List.of(tables), List.of());
    }

    private static Group group(String id, String heading, boolean forStatisticians, Table... tables) {
        return new Group(id, heading, "", "", forStatisticians, List.of(), List.of(tables), List.of());
    }

    private Table seen() {
        return new Table(
                "seen",
                "What each factor’s test finds",
                SizingWords.INTERACTION,
                List.of(
                        text("Factor"),
                        number("Finds " + words.worthwhile() + " in"),
                        number("Smallest change found in " + Words.percent(sizing.wanted())),
                        number("Interval of a difference, ±"),
                        number("No change: can say so")),
                sizing.closedForm().stream()
                        .map(c -> List.of(
                                c.term(),
                                SizingWords.chance(c.power()),
                                SizingWords.points(c.smallestChange()),
                                c.halfWidth() == null ? SizingWords.NONE : Words.points(c.halfWidth()),
                                SizingWords.chance(c.noChange())))
                        .toList());
    }

    private Table simulated() {
        var ways = sizing.terms().stream().map(Sizing.TermPower::by).distinct().toList();
        var columns = new ArrayList<>(List.of(text("Factor")));
        ways.forEach(w -> columns.add(number("By " + w)));
        return new Table(
                "simulated",
                "The same by invented trials",
                "Up to " + sizing.simulations()
                        + " each, analysed as analyse does; in brackets where the chance lies with 95 %.",
                columns,
                sizing.simulations() == 0
                        ? List.of()
                        : sizing.terms().stream()
                                .map(Sizing.TermPower::term)
                                .distinct()
                                .map(t -> row(t, ways, w -> words.simulated(t, w, " to ")))
                                .toList());
    }

    private static <T> List<String> row(String name, List<T> cases, Function<T, String> cell) {
        var row = new ArrayList<String>(List.of(name));
        cases.forEach(c -> row.add(cell.apply(c)));
        return row;
    }

    private Table assured() {
        var earlier = sizing.earlier();
        return new Table(
                "assured",
                earlier == null ? "" : "With all that “" + earlier.trial() + "” leaves unsure",
                "Assurance is the power averaged over how unsure the earlier trial’s figures are.",
                List.of(text("Factor"), number("Power with the best guesses"), number("Assurance")),
                earlier == null
                        ? List.of()
                        : earlier.assurances().stream()
                                .map(a -> List.of(
                                        a.term(), SizingWords.chance(a.power()), SizingWords.chance(a.assurance())))
                                .toList());
    }

    private Table needed() {
        return new Table(
                "needed",
                "What " + words.worthwhile() + " would take, found in " + Words.percent(sizing.wanted()),
                "The layout repeated as often as that.",
                List.of(
                        text("Factor"),
                        text("Given to"),
                        number("A level has"),
                        number("A level needs"),
                        number("Trays in all"),
                        text("The place holds it")),
                sizing.needed().stream()
                        .map(n -> Stream.concat(
                                        Stream.of(n.factor(), n.unit(), SizingWords.units(n)),
                                        SizingWords.needs(n).stream())
                                .toList())
                        .toList());
    }

    private Table seeds() {
        return factors(
                "by-seeds",
                "Finds " + words.worthwhile() + " with so many seeds in a frame",
                "",
                sizing.seeds(),
                s -> Integer.toString(s.seedsPerFrame()),
                Sizing.Seeds::terms);
    }

    private Table correlations() {
        var first = sizing.sensitivity().get(0).placeSd();
        return factors(
                "by-correlation",
                "Finds " + words.worthwhile() + " if the seeds of a tray are less or more alike (tray_correlation)",
                words.correlation(),
                sizing.sensitivity().stream()
                        .filter(s -> s.placeSd().equals(first))
                        .toList(),
                s -> SizingWords.number(s.trayCorrelation()),
                Sizing.Sensitivity::terms);
    }

    private Table places() {
        var assumed = sizing.sensitivity().get(0).placeSd();
        var others = sizing.sensitivity().stream()
                .filter(s -> !s.placeSd().equals(assumed))
                .toList();
        var cases = Stream.concat(
                        others.stream(),
                        sizing.sensitivity().stream()
                                .filter(s -> !others.isEmpty() && s.placeSd().equals(assumed))
                                .filter(s -> s.trayCorrelation() == words.assumed("tray_correlation")))
                .sorted(Comparator.comparingDouble(
                        s -> s.placeSd().values().stream().mapToDouble(v -> v).sum()))
                .toList();
        return factors(
                "by-places",
                "Finds " + words.worthwhile() + " if places differ less or more (place_sd)",
                "",
                cases,
                s -> s.placeSd().isEmpty()
                        ? "none"
                        : s.placeSd().entrySet().stream()
                                .map(e -> e.getKey() + " " + SizingWords.number(e.getValue()))
                                .sorted()
                                .collect(Collectors.joining(", ")),
                Sizing.Sensitivity::terms);
    }

    private <T> Table factors(
            String id,
            String caption,
            String reading,
            List<T> cases,
            Function<T, String> head,
            Function<T, List<Sizing.Chance>> chances) {
        var columns = new ArrayList<>(List.of(text("Factor")));
        cases.forEach(c -> columns.add(number(head.apply(c))));
        var rows = new ArrayList<List<String>>();
        for (int t = 0; t < sizing.closedForm().size() && !cases.isEmpty(); t++) {
            int term = t;
            if (sizing.closedForm().get(t).factors().size() == 1) {
                rows.add(row(
                        sizing.closedForm().get(t).term(),
                        cases,
                        c -> SizingWords.chance(chances.apply(c).get(term).power())));
            }
        }
        return new Table(id, caption, reading, columns, rows);
    }

    private Table granted() {
        return new Table(
                "assumptions",
                "Every number that was taken for granted",
                "",
                List.of(text("Number"), number("Value"), sentence("From")),
                sizing.assumptions().stream()
                        .map(a -> List.of(a.key(), SizingWords.number(a.value()), a.source()))
                        .toList());
    }

    private Table exact() {
        return new Table(
                "closed-form",
                "F tests in their strata",
                "Error rate " + SizingWords.number(sizing.alpha())
                        + ". λ: non-centrality. The interval is the mean one where the factor does nothing, Dunnett’s for several"
                        + " levels; “can say so”: two one-sided tests. As two proportions: with the design effect.",
                List.of(
                        text("Term"),
                        text("Stratum"),
                        number("df"),
                        number("Error df"),
                        number("λ"),
                        number("As two proportions")),
                sizing.closedForm().stream()
                        .map(c -> List.of(
                                c.term(),
                                c.stratum(),
                                Integer.toString(c.df()),
                                SizingWords.number(c.denominatorDf()),
                                c.nonCentrality() == null ? SizingWords.NONE : Words.measure(c.nonCentrality()),
                                SizingWords.chance(c.twoProportions())))
                        .toList());
    }
}
