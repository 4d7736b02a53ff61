package org.fairtray.report;

import java.util.List;

/** What a chart shows, said in numbers for those who can't see it. */
final class Descriptions {
    private static final int MOST = 12;

    private Descriptions() {}

    /** The first dozen, and how many more the tables hold. */
    static String list(List<String> items) {
        if (items.isEmpty()) {
            return "Nothing could be drawn.";
        }
        var first = String.join("; ", items.subList(0, Math.min(MOST, items.size())));
        int more = items.size() - MOST;
        return first + (more > 0 ? "; and " + more + " more" : "") + ".";
    }
}
