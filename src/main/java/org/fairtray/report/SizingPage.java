package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.fairtray.findings.Words;
import org.fairtray.report.pages.Group;
import org.fairtray.report.pages.ReportView.Fact;
import org.fairtray.report.pages.SizingView;
import org.fairtray.report.pages.Table;
import org.fairtray.sizing.Assumption;
import org.fairtray.sizing.Sizing;

/** size.html: how many trays, on one page in the report's look. */
public final class SizingPage {
    private static final String NONE = "-";

    private final Sizing sizing;
    private final String version;

    private SizingPage(Sizing sizing, String version) {
        this.sizing = sizing;
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
            facts.add(new Fact("Worth finding", worthwhile()));
            facts.add(new Fact("How often", Words.percent(sizing.wanted())));
            parts.add(part("see", "What it can see", seen(), simulated(), assured()));
            parts.add(part("take", "What it would take", needed()));
        }
        if (sizing.spending() != null) {
            parts.add(new SpendingFigures(sizing, sizing.spending()).all());
        }
        if (known) {
            groups.add(group("seeds", "With more or fewer seeds", false, seeds()));
            groups.add(group("guesses", "How much it hangs on the guesses", false, correlations(), places()));
        }
        groups.add(group("granted", "What was taken for granted", false, granted()));
        if (sizing.spending() != null) {
            groups.add(group("prices", "Costs", false, new SpendingFigures(sizing, sizing.spending()).costs()));
        }
        groups.add(group("exact", "For statisticians", true, exact()));
        return new SizingView(
                Report.style(),
                sizing.trial(),
                facts,
                sizing.advice(),
                sizing.notes().stream()
                        .filter(n -> !sizing.advice().contains(n))
                        .toList(),
                parts,
                groups,
                version);
    }

    private static Group part(String id, String heading, Table... tables) {
        return new Group(id, heading, "", "", false, List.of(), List.of(tables), List.of());
    }

    private static Group group(String id, String heading, boolean forStatisticians, Table... tables) {
        return new Group(id, heading, "", "", forStatisticians, List.of(), List.of(tables), List.of());
    }

    private String worthwhile() {
        return Words.points(assumed("worthwhile"));
    }

    private double assumed(String key) {
        return sizing.assumptions().stream()
                .filter(a -> a.key().equals(key))
                .mapToDouble(Assumption::value)
                .findFirst()
                .orElseThrow();
    }

    private Table seen() {
        return new Table(
                "seen",
                "What each factor’s test finds",
                "An interaction is taken to be this: only the trays with the last level of all its factors have the higher rate.",
                List.of(
                        text("Factor"),
                        number("Finds " + worthwhile() + " in"),
                        number("Smallest change found in " + Words.percent(sizing.wanted())),
                        number("Interval of a difference, ±"),
                        number("No change: can say so")),
                sizing.closedForm().stream()
                        .map(c -> List.of(
                                c.term(),
                                SizingText.chance(c.power()),
                                SizingText.points(c.smallestChange()),
                                c.halfWidth() == null ? NONE : Words.points(c.halfWidth()),
                                SizingText.chance(c.noChange())))
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
                                .map(t -> row(t, ways, w -> simulated(t, w)))
                                .toList());
    }

    private static <T> List<String> row(String name, List<T> cases, Function<T, String> cell) {
        var row = new ArrayList<String>(List.of(name));
        cases.forEach(c -> row.add(cell.apply(c)));
        return row;
    }

    private String simulated(String term, String by) {
        return sizing.terms().stream()
                .filter(t -> t.term().equals(term) && t.by().equals(by) && t.power() != null)
                .findFirst()
                .map(t -> SizingText.chance(t.power())
                        + (t.low() == null
                                ? ""
                                : String.format(Locale.ROOT, " (%.0f to %.0f)", 100 * t.low(), 100 * t.high())))
                .orElse(NONE);
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
                                        a.term(), SizingText.chance(a.power()), SizingText.chance(a.assurance())))
                                .toList());
    }

    private Table needed() {
        return new Table(
                "needed",
                "What " + worthwhile() + " would take, found in " + Words.percent(sizing.wanted()),
                "The layout repeated as often as that.",
                List.of(
                        text("Factor"),
                        text("Given to"),
                        number("A level has"),
                        number("A level needs"),
                        number("Trays in all"),
                        text("The place holds it")),
                sizing.needed().stream()
                        .map(n -> List.of(
                                n.factor(),
                                n.unit(),
                                Digits.fixed(n.unitsPerLevel(), 0),
                                n.neededPerLevel() == null
                                        ? "> 50 times"
                                        : n.neededPerLevel().toString(),
                                n.trays() == null ? NONE : n.trays().toString(),
                                n.fits() == null ? NONE : n.fits() ? "yes" : "no"))
                        .toList());
    }

    private Table seeds() {
        return factors(
                "by-seeds",
                "Finds " + worthwhile() + " with so many seeds in a frame",
                "",
                sizing.seeds(),
                s -> Integer.toString(s.seedsPerFrame()),
                Sizing.Seeds::terms);
    }

    private Table correlations() {
        var first = sizing.sensitivity().get(0).placeSd();
        return factors(
                "by-correlation",
                "Finds " + worthwhile() + " if the seeds of a tray are less or more alike (tray_correlation)",
                "Reckoned with here is " + SizingText.number(assumed("tray_correlation")) + ".",
                sizing.sensitivity().stream()
                        .filter(s -> s.placeSd().equals(first))
                        .toList(),
                s -> SizingText.number(s.trayCorrelation()),
                Sizing.Sensitivity::terms);
    }

    private Table places() {
        var first = sizing.sensitivity().get(0).placeSd();
        return factors(
                "by-places",
                "Finds " + worthwhile() + " if places differ less or more (place_sd)",
                "",
                sizing.sensitivity().stream()
                        .filter(s -> !s.placeSd().equals(first))
                        .toList(),
                s -> s.placeSd().entrySet().stream()
                        .map(e -> e.getKey() + " " + SizingText.number(e.getValue()))
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
                        c -> SizingText.chance(chances.apply(c).get(term).power())));
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
                        .map(a -> List.of(a.key(), SizingText.number(a.value()), a.source()))
                        .toList());
    }

    private Table exact() {
        return new Table(
                "closed-form",
                "F tests in their strata",
                "Error rate " + SizingText.number(sizing.alpha())
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
                                SizingText.number(c.denominatorDf()),
                                c.nonCentrality() == null ? NONE : Words.measure(c.nonCentrality()),
                                SizingText.chance(c.twoProportions())))
                        .toList());
    }
}
