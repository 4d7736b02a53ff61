package org.fairtray;

import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.analysis.Sealing;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.Test;

/** The bootstrap that is made on request, what the methods say, and the word on tests that disagree. */
class AnalysisOptionsTest {
    private static final double[] THROUGH_EACH = {20, 31, 24, 35, 18, 30, 27, 33};

    private static Trials trials() {
        return Trials.of(place("spot 8"), List.of(factor("mat", "tray", "hemp", "coir")), THROUGH)
                .laid(at -> List.of(at.get(0) % 2 == 1 ? "hemp" : "coir"))
                .read(t -> Map.of("through", THROUGH_EACH[t.stand().at().get(0) - 1]));
    }

    private static Findings.OutcomeFindings analyse(AnalysisOptions options) {
        var trials = trials();
        var sealing = new Sealing(Seal.State.ABSENT, Optional.empty(), "plan", "layout");
        return Analysis.of(trials.trial(), trials.layout(), trials.readings(), sealing, "test", options)
                .outcomes()
                .get(0);
    }

    private static Double bootstrapP(Findings.OutcomeFindings found) {
        return assertInstanceOf(Logistic.Term.Bootstrapped.class, firstTerm(found, "mixed"))
                .bootstrapP();
    }

    private static Logistic.Term firstTerm(Findings.OutcomeFindings found, String fit) {
        return found.logistic().fits().get(fit).terms().get(0);
    }

    @Test
    void theSameEveryRunAndOneOverAllDrawsAtLeast() {
        var seen = new ArrayList<String>();
        var options = new AnalysisOptions(19, seen::add);
        var first = analyse(options);
        double p = bootstrapP(first);
        assertTrue(p >= 1.0 / 20 && p < 0.5, () -> "p = " + p);
        assertEquals(Math.rint(p * 20), p * 20, 1e-9);
        assertInstanceOf(Logistic.Term.Plain.class, firstTerm(first, "binomial"));
        var draws = seen.stream().filter(s -> s.contains("draw")).toList();
        assertEquals(19, draws.size());
        assertEquals("through, mat: bootstrap draw 19 of 19", draws.get(18));
        assertTrue(seen.stream().anyMatch(s -> s.endsWith(" arrangements of the trays tried")), seen::toString);
        assertEquals(p, bootstrapP(analyse(options)));
        assertTrue(first.methods().stream().anyMatch(s -> s.contains("parametric bootstrap: 19 draws")));
    }

    @Test
    void notMadeUnlessAskedFor() {
        var found = analyse(AnalysisOptions.USUAL);
        assertInstanceOf(Logistic.Term.Plain.class, firstTerm(found, "mixed"));
        assertTrue(found.methods().stream().noneMatch(s -> s.contains("bootstrap")));
        assertThrows(IllegalArgumentException.class, () -> new AnalysisOptions(-1, said -> {}));
    }

    @Test
    void interruptedItStops() {
        var options = new AnalysisOptions(1000, said -> {
            if (said.contains("draw 3 of")) {
                Thread.currentThread().interrupt();
            }
        });
        assertThrows(CancellationException.class, () -> analyse(options));
        assertTrue(Thread.interrupted());
    }

    @Test
    void methodsSayWhatWasDone() {
        var methods = String.join(" ", analyse(AnalysisOptions.USUAL).methods());
        assertTrue(methods.contains("(mat: all 70, permuted)"), methods);
        assertTrue(methods.contains("fitted by maximum likelihood without blocks"), methods);
        assertTrue(!methods.contains("Holm") && !methods.contains("Dunnett"), methods);
        var several = Trials.kinds().get(3).drawn(1);
        var counts = several.read(t -> Map.of(
                "through",
                10.0 + t.stand().at().get(2) + 3 * t.stand().at().get(1),
                "height_mm",
                20.0 + t.stand().at().get(2) * t.stand().at().get(1)));
        var said = String.join(" ", counts.findings().outcomes().get(0).methods());
        assertTrue(said.contains("by Dunnett's method") && said.contains("Tukey's and Kramer's"), said);
        assertTrue(said.contains("orthogonal polynomials"), said);
        var separated = trials().read(t -> Map.of(
                "through",
                "coir".equals(t.treatment().level("mat"))
                        ? 50.0
                        : THROUGH_EACH[t.stand().at().get(0) - 1]));
        assertTrue(String.join(" ", separated.findings().outcomes().get(0).methods())
                .contains("Firth's penalised likelihood"));
    }

    /** With three trays to a mat, 20 layouts were possible, so no p is below 2/20. */
    @Test
    void testsThatDisagreeAreWarnedOf() {
        var six = Trials.of(place("spot 6"), List.of(factor("mat", "tray", "hemp", "coir")), THROUGH)
                .laid(at -> List.of(at.get(0) % 2 == 1 ? "hemp" : "coir"))
                .read(t -> Map.of("through", THROUGH_EACH[t.stand().at().get(0) - 1]));
        var warning = six.findings().warnings().stream()
                .filter(w -> w.kind().equals("tests disagree"))
                .findFirst()
                .orElseThrow();
        assertEquals(List.of("mat"), warning.factors());
        assertTrue(warning.sentence().startsWith("On through: For mat the model gives p"), warning::sentence);
    }
}
