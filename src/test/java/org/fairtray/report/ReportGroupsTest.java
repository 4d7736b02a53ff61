package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Element;
import org.w3c.dom.Node;

/** What is folded away on the page: which groups there are, in what order, and what each table says. */
class ReportGroupsTest {
    private static final Page SPLIT_PLOT = new Page(SampleFindings.splitPlot().html());
    private static final Page TINY = new Page(SampleFindings.tiny().html());

    private static List<Element> groups(Page page) {
        return page.all("details").stream()
                .filter(d -> d.getAttribute("class").startsWith("group"))
                .toList();
    }

    private static List<String> headings(Page page, String level) {
        return groups(page).stream()
                .flatMap(g -> children(summary(g)))
                .filter(e -> e.getTagName().equals(level))
                .map(Node::getTextContent)
                .toList();
    }

    private static java.util.stream.Stream<Element> children(Element element) {
        return IntStream.range(0, element.getChildNodes().getLength())
                .mapToObj(element.getChildNodes()::item)
                .filter(Element.class::isInstance)
                .map(Element.class::cast);
    }

    private static Element summary(Element details) {
        return (Element) details.getElementsByTagName("summary").item(0);
    }

    private static Element byId(Page page, String id) {
        return page.elements().stream()
                .filter(e -> e.getAttribute("id").equals(id))
                .findFirst()
                .orElseThrow(() -> new AssertionError(id + " is not on the page"));
    }

    /** The rows of a table, cells parted by bars. */
    private static List<String> rows(Page page, String id) {
        Node table = byId(page, id);
        while (!table.getNodeName().equals("table")) {
            table = table.getParentNode();
        }
        var body = (Element) ((Element) table).getElementsByTagName("tbody").item(0);
        return children(body)
                .map(r -> String.join("|", children(r).map(Node::getTextContent).toList()))
                .toList();
    }

    @Test
    void showsEachGroupOfTheFirstOutcomeOnceAndInOrder() {
        assertEquals(
                List.of(
                        "What each change did",
                        "How fast",
                        "What it costs",
                        "Are the data sound?",
                        "For statisticians"),
                headings(SPLIT_PLOT, "h3"));
    }

    @Test
    void showsNoGroupWithoutAnythingInIt() {
        assertEquals(List.of("What each change did", "How fast", "For statisticians"), headings(TINY, "h3"));
        for (var group : groups(TINY)) {
            assertTrue(
                    group.getElementsByTagName("table").getLength()
                                    + group.getElementsByTagName("figure").getLength()
                            > 0,
                    group.getAttribute("id"));
        }
    }

    @Test
    void foldsEverythingAndOpensNothing() {
        for (var details : SPLIT_PLOT.all("details")) {
            assertFalse(details.hasAttribute("open"));
            assertFalse(summary(details).getTextContent().isBlank());
        }
        var text = SPLIT_PLOT.text();
        assertTrue(text.indexOf("What each treatment gave") < text.indexOf("How much each change did"));
        assertTrue(text.indexOf("How much each change did") < text.indexOf("What each change did"));
    }

    @Test
    void keepsOnlyTheStatisticiansGroupsOffPaperAndSaysSo() {
        var aside = SPLIT_PLOT.all("details").stream()
                .filter(d -> d.getAttribute("class").equals("group aside"))
                .filter(d -> d.getAttribute("id").startsWith("outcome-1-"))
                .toList();
        assertEquals("outcome-1-speed-model", aside.get(0).getAttribute("id"));
        assertEquals("outcome-1-statistics", aside.get(1).getAttribute("id"));
        assertEquals(8, aside.size(), "two groups, and six fits in the second");
        for (var group : aside) {
            int tables = group.getElementsByTagName("table").getLength();
            assertTrue(
                    summary(group)
                            .getTextContent()
                            .contains("folded away, " + tables + " tables: open it on the screen"),
                    summary(group).getTextContent());
        }
        assertTrue(
                summary(byId(SPLIT_PLOT, "outcome-2-changes")).getTextContent().contains("folded away"));
        assertEquals("print-all", SPLIT_PLOT.all("input").get(0).getAttribute("id"), "one box puts all of it on paper");
    }

    @Test
    void tellsOneIntervalFromAllTogether() {
        var rows = rows(SPLIT_PLOT, "outcome-1-table-effects");
        assertEquals(
                "soak: 8 h against 0 h|55|35|20|9 to 31|7 to 33|0.008|"
                        + "simultaneous t, 2 comparisons against the control",
                rows.get(0));
        assertEquals(rows, rows(SPLIT_PLOT, "outcome-1-table-pairs"));
        assertTrue(rows(SPLIT_PLOT, "outcome-1-table-effects-in-full").get(0).endsWith("|9 to 31|2.30|1.40 to 3.70"));
    }

    @Test
    void writesTrendsBestLevelsAndWhetherJustAsGood() {
        assertEquals(
                List.of(
                        "soak|linear|Each hour more gives 2.5\u00a0points more.|2.51|1.04 to 3.98|1|0.004",
                        "soak|lack of fit|Nothing is left beside the line.|not available|not available|2|0.61"),
                rows(SPLIT_PLOT, "outcome-1-table-trends"));
        assertEquals(
                List.of(
                        "soak|6.42 h|5.10 and more|yes|About 6.4 h is best; it may be more.",
                        "soak|none|not available|no|The curve has no highest point."),
                rows(SPLIT_PLOT, "outcome-1-table-best"));
        assertEquals(
                "soak: 8 h against 0 h|not worse|Not worse by 15\u00a0points; it may be better.|15|−8 to 17|0.012|0.21",
                rows(SPLIT_PLOT, "outcome-1-table-as-good-as").get(0));
    }

    @Test
    void leavesOutTheTrendOfTwoLevelsWhichIsTheirDifference() {
        var trends = SampleFindings.splitPlot().findings().outcomes().get(0).trends();
        assertEquals(1, trends.stream().filter(t -> t.factor().equals("cover")).count());
        assertTrue(rows(SPLIT_PLOT, "outcome-1-table-trends").stream().noneMatch(r -> r.startsWith("cover")));
    }

    @Test
    void writesSpeedAndWhereItsIndicesComeFrom() {
        assertEquals(
                List.of("soak|changed|Soaking brought roots through 0.6 days earlier."),
                rows(SPLIT_PLOT, "outcome-1-table-speed"));
        assertEquals(
                "soak 0 h, cover 0 kg, mat hemp|2.9|2.7 to 3.2|day 2 to 3|56|4.02|",
                rows(SPLIT_PLOT, "outcome-1-table-curves").get(0));
        assertTrue(rows(SPLIT_PLOT, "outcome-2-table-curves").get(0).contains("|by day 1|"));
        assertTrue(rows(SPLIT_PLOT, "outcome-2-table-curves").get(1).contains("|after day 6|"));
        assertTrue(rows(SPLIT_PLOT, "outcome-1-table-indices").get(0).endsWith("|3.14|not available"));
        assertEquals(
                List.of("mean time|days|after an invented source", "spread index||after another invented source"),
                rows(SPLIT_PLOT, "outcome-1-table-sources"));
        assertEquals(
                List.of("soak=8|0.412|0.0871|0.241 to 0.583"), rows(SPLIT_PLOT, "outcome-1-table-hazard-coefficients"));
        assertEquals(1, rows(SPLIT_PLOT, "outcome-1-table-hazard-terms").size());
        assertTrue(rows(SPLIT_PLOT, "outcome-1-table-speed-tests").get(0).contains("|0.009|0.010|"));
    }

    @Test
    void writesCostsEvenWhereNothingCameOut() {
        var rows = rows(SPLIT_PLOT, "outcome-1-table-costs");
        assertEquals("soak 0 h, cover 0 kg, mat hemp|1.23|36|34.76|30.99 to 42.25", rows.get(0));
        assertTrue(rows.get(12).endsWith("|0|none came out|99.50 and more"), rows.get(12));
    }

    @Test
    void putsWhatStandsOutFirstAndInWords() {
        var rows = rows(SPLIT_PLOT, "outcome-1-table-sound");
        assertTrue(rows.get(0).startsWith("outlying tray|look at it|Tray A100 "), rows.get(0));
        assertTrue(rows.get(1).startsWith("replicates|sound|"), rows.get(1));
        assertTrue(rows.get(2).startsWith("counters|could not be checked|"), rows.get(2));
        assertTrue(summary(byId(SPLIT_PLOT, "outcome-1-sound")).getTextContent().contains("1\u00a0thing to look at"));
    }

    @Test
    void putsTheModelBesideTheDraws() {
        assertEquals(
                "soak|0.006|0.005|< 0.001|9,999|drawn by chance|permuted|F 12.61".replace("< ", "<\u00a0"),
                rows(SPLIT_PLOT, "outcome-1-table-rerandomised").get(0).replaceFirst("\\|The levels.*", ""));
    }

    @Test
    void saysOfEachFitHowGoodItIsAndWhichIsUsed() {
        assertEquals(
                List.of(
                        "Logistic model, binomial",
                        "Logistic model, quasi",
                        "Logistic model, beta-binomial",
                        "Logistic model, mixed",
                        "Logistic model, marginal",
                        "Logistic model, penalised"),
                headings(SPLIT_PLOT, "h4").stream()
                        .filter(h -> h.startsWith("Logistic"))
                        .toList());
        var statistics = byId(SPLIT_PLOT, "outcome-1-statistics").getTextContent();
        assertTrue(statistics.contains("Logistic model used: quasi. Trays of one treatment differ more"));
        assertTrue(summary(byId(SPLIT_PLOT, "outcome-1-fit-quasi"))
                .getTextContent()
                .contains("the effects rest on it"));
        assertTrue(statistics.contains(
                "Correlation of two seeds of one tray 0.0213, 95\u00a0% interval 0.00440 to 0.0712"));
        assertTrue(
                statistics.contains("stack 0, tray 0.271. No spread beyond chance was found between units of stack"));
        assertTrue(
                statistics.contains("Variances on the log-odds scale: stack 0.0333. Dispersion between trays 1.71."));
        assertTrue(statistics.contains("Penalised log-likelihood −77.31."));
    }
}
