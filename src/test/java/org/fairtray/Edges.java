package org.fairtray;

import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;

/** A soaking, a mat, a cover; readings that depend on them; and what was found. */
final class Edges {
    static final Factor SOAK = factor("soak", "tray", "0", "8");
    static final Factor MAT = factor("mat", "tray", "hemp", "coir", "pad");
    static final Factor COVER = factor("cover", "stack", "0", "3");
    static final Place TWELVE = place("spot 12");

    static Trials soakAndMat() {
        return Trials.of(TWELVE, List.of(SOAK, MAT), THROUGH).drawn(1);
    }

    static Map<String, String> verdicts(Findings findings) {
        var verdicts = new LinkedHashMap<String, String>();
        findings.outcomes().get(0).verdicts().forEach(v -> verdicts.put(v.factor(), v.verdict()));
        return verdicts;
    }

    static Findings.TermTest test(Findings findings, String term) {
        return findings.outcomes().get(0).tests().stream()
                .filter(t -> t.term().equals(term))
                .findFirst()
                .orElseThrow();
    }

    /** A number through that depends on the treatment and a little on the tray. */
    static Map<String, Double> plausible(Trials trials, Tray tray) {
        int number = trials.numbers().get(tray.code());
        double through = 15
                + ("8".equals(tray.treatment().level("soak")) ? 12 : 0)
                + ("3".equals(tray.treatment().level("cover")) ? 7 : 0)
                + ("coir".equals(tray.treatment().level("mat")) ? 5 : 0)
                + (number * 7 + number * number) % 5;
        return Map.of("through", through, "germinated", through + 4, "height_mm", 20 + through / 3);
    }

    static Trials plausible(Trials trials) {
        return trials.read(t -> plausible(trials, t));
    }

    static List<String> coefficients(Findings findings) {
        return findings.outcomes().get(0).logistic().fits().get("binomial").coefficients().stream()
                .map(Logistic.Coefficient::name)
                .toList();
    }

    private Edges() {}
}
