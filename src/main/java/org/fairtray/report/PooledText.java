package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.findings.Pooled;

/** What many trials showed together, line by line. */
public final class PooledText {
    private static final int MOST_LEFT_OUT = 20;

    private PooledText() {}

    public static List<String> of(Pooled pooled) {
        var lines = new ArrayList<String>();
        lines.add(pooled.trials() + (pooled.trials() == 1 ? " trial of " : " trials of ") + pooled.farms()
                + (pooled.farms() == 1 ? " farm, " : " farms, ") + pooled.trays() + " trays.");
        if (pooled.verdicts().isEmpty()) {
            lines.add("There is nothing to put together.");
        }
        pooled.verdicts().forEach(v -> lines.add("  " + v.verdict() + ": " + v.sentence()));
        if (!pooled.leftOut().isEmpty()) {
            lines.add("");
            lines.add("Left out:");
            pooled.leftOut().stream()
                    .limit(MOST_LEFT_OUT)
                    .forEach(l -> lines.add(
                            "  " + l.trial() + (l.factor() == null ? "" : ", " + l.factor()) + ": " + l.reason()));
            if (pooled.leftOut().size() > MOST_LEFT_OUT) {
                lines.add("  and " + (pooled.leftOut().size() - MOST_LEFT_OUT) + " more, which the report has.");
            }
        }
        if (!pooled.notes().isEmpty()) {
            lines.add("");
            pooled.notes().forEach(n -> lines.add("Note: " + n));
        }
        return lines;
    }
}
