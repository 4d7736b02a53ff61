package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.List;
import java.util.stream.Stream;
import org.fairtray.findings.Findings;
import org.junit.jupiter.api.Named;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.w3c.dom.Element;

/** What holds of every report, whatever was found, and a few words of a known one. */
class ReportTest {

    private static final List<Named<Page>> PAGES = List.of(
            Named.of("split plot", new Page(SampleFindings.splitPlot().html())),
            Named.of("one tray", new Page(SampleFindings.tiny().html())),
            Named.of("hostile names", new Page(SampleFindings.hostile().html())),
            Named.of("forty treatments", new Page(SampleFindings.many(6, 40, 40).html())));

    static Stream<Named<Page>> pages() {
        return PAGES.stream();
    }

    @ParameterizedTest
    @MethodSource("pages")
    void holdsNoScriptAndLoadsNothing(Page page) {
        assertEquals(List.of(), page.all("script"));
        for (var element : page.elements()) {
            for (var name : Page.attributeNames(element)) {
                assertFalse(name.startsWith("on"), name);
                if (name.equals("href") || name.equals("src") || name.endsWith(":href")) {
                    assertTrue(element.getAttribute(name).startsWith("#"), element.getAttribute(name));
                }
            }
        }
        assertFalse(page.all("style").get(0).getTextContent().matches("(?s).*(url\\(|@import).*"));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void namesItsTablesAndHeads(Page page) {
        assertFalse(page.all("table").isEmpty());
        for (var table : page.all("table")) {
            assertEquals(1, table.getElementsByTagName("caption").getLength());
            assertFalse(table.getElementsByTagName("caption")
                    .item(0)
                    .getTextContent()
                    .isBlank());
        }
        for (var head : page.all("th")) {
            assertTrue(List.of("col", "row").contains(head.getAttribute("scope")));
        }
    }

    /** What a statistician wants to know of the plan doesn't stand between the grower and the verdicts. */
    @ParameterizedTest
    @MethodSource("pages")
    void namesTheTextbookWhereItSaysHowItWasWorkedOut(Page page) {
        var methods = page.all("section").stream()
                .filter(s -> s.getAttribute("aria-labelledby").equals("methods-head"))
                .findFirst()
                .orElseThrow()
                .getTextContent();
        boolean named = methods.contains("in the textbook: ");
        assertEquals(page.all("dt").stream().anyMatch(d -> d.getTextContent().equals("Design")), named);
        assertTrue(page.all("dd").stream().noneMatch(d -> d.getTextContent().contains("textbook")));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void tellsEveryChartInWords(Page page) {
        for (var svg : page.all("svg")) {
            if (!svg.getAttribute("aria-hidden").equals("true")) {
                assertEquals("img", svg.getAttribute("role"));
                assertFalse(child(svg, "title").isBlank());
                assertTrue(child(svg, "desc").matches("(?s).*\\d.*|.*not available.*"), child(svg, "desc"));
            }
        }
        assertTrue(page.all("svg").stream().anyMatch(s -> s.getAttribute("role").equals("img")));
    }

    private static String child(Element svg, String name) {
        return svg.getElementsByTagName(name).item(0).getTextContent();
    }

    @ParameterizedTest
    @MethodSource("pages")
    void ordersItsHeadings(Page page) {
        int before = 0;
        for (var element : page.elements()) {
            if (element.getTagName().matches("h[1-6]")) {
                int level = Integer.parseInt(element.getTagName().substring(1));
                assertTrue(level <= before + 1, element.getTextContent() + " skips a level");
                before = level;
            }
        }
        assertEquals(1, page.all("h1").size());
        assertEquals("en", page.all("html").get(0).getAttribute("lang"));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void usesEveryIdOnceAndPointsAtNothingMissing(Page page) {
        var ids = new HashSet<String>();
        for (var element : page.elements()) {
            var id = element.getAttribute("id");
            assertTrue(id.isEmpty() || ids.add(id), id + " stands twice");
        }
        for (var element : page.elements()) {
            for (var id : element.getAttribute("aria-labelledby").split(" ", -1)) {
                assertTrue(id.isEmpty() || ids.contains(id), id + " is missing");
            }
        }
        assertTrue(ids.contains(page.all("a").get(0).getAttribute("href").substring(1)));
    }

    @ParameterizedTest
    @MethodSource("pages")
    void neverPrintsAStandIn(Page page) {
        assertFalse(page.text().matches("(?s).*\\b(null|NaN|Infinity|Optional)\\b.*"));
    }

    @Test
    void leavesHostileNamesAsText() {
        var page = new Page(SampleFindings.hostile().html());
        assertEquals(
                "<script>alert(1)</script> \"quoted\" & 'single' ⟨U+202E⟩right to left⟨U+202C⟩ =1+1 ⟨U+0007⟩ ",
                page.all("h1").get(0).getTextContent());
        assertEquals(List.of(), page.all("img"));
        assertTrue(page.text().contains("</td><b> 1"));
        assertTrue(page.text().contains("${7*7}"));
        assertTrue(page.text().contains("⟨U+D800⟩"));
        assertFalse(page.html().contains("\u202e"));
    }

    @Test
    void putsTheVerdictsFirstInWordAndMark() {
        var page = new Page(SampleFindings.splitPlot().html());
        var cards = page.all("article").stream()
                .limit(3)
                .map(c -> c.getAttribute("class") + ": "
                        + c.getElementsByTagName("h3").item(0).getTextContent())
                .toList();
        assertEquals(
                List.of(
                        "card changed: soak: changed",
                        "card open: cover: cannot tell",
                        "card same: mat: no worthwhile change"),
                cards);
        var text = page.text();
        assertTrue(text.indexOf("20 points more (8 to 31)") < text.indexOf("What stands in the way"));
        assertTrue(text.indexOf("What stands in the way") < text.indexOf("Where the trays stood"));
    }

    @Test
    void writesNumbersForPeople() {
        var text = new Page(SampleFindings.splitPlot().html()).text();
        assertTrue(text.contains("soak: 8 h against 0 h: +20\u00a0points (9 to 31); "), "effect in the chart's words");
        assertTrue(text.contains("\u221212"), "a true minus sign");
        assertTrue(text.contains("<\u00a00.001"), "a small p");
        assertTrue(text.contains("could not be used"), "a tray left out");
        assertTrue(text.contains("Efficiency"), "a term that lies in two strata");
        assertFalse(new Page(SampleFindings.tiny().html()).text().contains("Efficiency"));
    }

    @Test
    void saysHowToDoItAgain() {
        var text = new Page(SampleFindings.splitPlot().html()).text();
        assertTrue(text.contains("20260314"));
        assertTrue(text.contains("fairtray analyse DIR"));
        assertTrue(text.contains("Plan and layout are those that were sealed before sowing."));
    }

    @Test
    void carriesALabelOnlyWhereOneIsGiven() {
        var sample = SampleFindings.splitPlot();
        var report = Report.of(sample.trial(), sample.layout(), sample.findings());
        assertTrue(new Page(report.labelled("Invented data").html()).text().contains("Invented data"));
        assertFalse(new Page(report.html()).text().contains("Invented data"));
    }

    @Test
    void comesOutTheSameTwice() {
        assertEquals(
                SampleFindings.splitPlot().html(), SampleFindings.splitPlot().html());
    }

    @Test
    void staysSmallEnoughToSend() {
        assertTrue(SampleFindings.many(60, 10, 40).html().length() < 1_500_000);
        assertTrue(SampleFindings.many(200, 10, 40).html().length() < 2_000_000);
    }

    @Test
    void needsAnOutcome() {
        var sample = SampleFindings.tiny();
        var nothing = new Findings("0.1.0", "Empty", false, null, List.of(), List.of());
        var e = assertThrows(IllegalArgumentException.class, () -> Report.of(sample.trial(), sample.layout(), nothing));
        assertEquals("findings without an outcome: expected at least one", e.getMessage());
    }
}
