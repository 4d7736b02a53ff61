package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.regex.Pattern;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.spending.Limits;
import org.fairtray.sizing.spending.Sizes;
import org.junit.jupiter.api.Test;

class SizingPageTest {
    private static final String EXPECT =
            ", expect: {control_rate: 0.4, worthwhile: 0.2, tray_correlation: 0.05, place_sd: {stack: 0.3}}";

    private static Sizing sizing(String title, String more, Limits limits) {
        var plan = "{format: 1, trial: \"" + title + "\", factors: [{name: cover, levels: [0, 3], applied_to: stack},"
                + " {name: mat, levels: [hemp, coir]}], place: [{name: stack, count: 8}, {name: spot, count: 4}],"
                + " counting: {days: [6], seeds_per_frame: 50}, outcomes: [{name: through, kind: count, day: 6}]" + more
                + "}";
        var trial = TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
        var sized = SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(1)));
        return sized.sizing()
                .beside(Sizes.of(sized, limits, OptionalDouble.empty()).orElse(null));
    }

    private static String page(Sizing sizing) {
        return SizingPage.of(sizing, "test").html();
    }

    @Test
    void hasEveryChoiceEveryNeedAndEveryAssumption() {
        var sizing = sizing("Covers", EXPECT, Limits.NONE);
        var html = page(sizing);
        assertTrue(html.contains("<title>Covers</title>"));
        for (var choice : sizing.spending().choices()) {
            assertTrue(html.contains(choice.why()), choice::toString);
            assertTrue(html.contains(">" + choice.trays() + "<"), choice::toString);
        }
        for (var needed : sizing.needed()) {
            assertTrue(html.contains(">" + needed.trays() + "<"), needed::toString);
        }
        for (var assumption : sizing.assumptions()) {
            assertTrue(html.contains(assumption.key()), assumption::toString);
        }
        for (var closed : sizing.closedForm()) {
            assertTrue(html.contains(SizingWords.chance(closed.power())), closed::toString);
        }
    }

    @Test
    void theChartHasALineForEachNumberOfSeedsAndOneForTheMoney() {
        var limits = new Limits(OptionalDouble.of(60), OptionalDouble.empty(), OptionalDouble.empty());
        var sizing = sizing("Covers", EXPECT, limits);
        var html = page(sizing);
        for (var curve : sizing.spending().curves()) {
            assertTrue(html.contains(curve.seedsPerFrame() + " seeds counted in a tray"), curve::toString);
        }
        assertTrue(html.contains("where the money is spent: 60"));
        assertTrue(html.contains("the place is full") && html.contains("wanted"));
        assertTrue(Pattern.compile("<title[^>]*>How sure by how many trays")
                .matcher(html)
                .find());
        assertFalse(page(sizing("Covers", EXPECT, Limits.NONE)).contains("where the money is spent"));
    }

    @Test
    void simulatedPowersHaveTheirIntervals() {
        var sizing = sizing("Covers", EXPECT, Limits.NONE)
                .simulated(List.of(new Sizing.TermPower("mat", "verdict", 0.623, 0.581, 0.664)), 500, List.of());
        var html = page(sizing);
        assertTrue(html.contains("62 % (58 to 66)") && html.contains("Up to 500 each"));
    }

    @Test
    void hostileNamesAreText() {
        var html = page(sizing("<script>alert(1)</script> & more", EXPECT, Limits.NONE));
        assertFalse(html.contains("<script"));
        assertTrue(html.contains("&lt;script&gt;alert(1)&lt;/script&gt; &amp; more"));
    }

    @Test
    void needsNoScriptAndNoNetwork() {
        var html = page(sizing("Covers", EXPECT, Limits.NONE));
        assertFalse(
                html.contains("<script") || html.contains("http://www.") || html.contains("src="), "self-contained");
        assertTrue(html.contains("default-src 'none'"));
    }

    @Test
    void whatIsNotAvailableIsADashAndNothingIsNaN() {
        var impossible = sizing("Covers", ", expect: {control_rate: 0.95, worthwhile: 0.2}", Limits.NONE);
        assertEquals(null, impossible.spending());
        var html = page(impossible);
        assertFalse(html.contains("NaN") || html.contains(">null<"));
        assertTrue(html.contains(">-</bdi></td>") || html.contains(">-</td>"), "a dash");
        assertFalse(html.contains("Where to spend"));
        assertTrue(html.contains("What was taken for granted"));
    }
}
