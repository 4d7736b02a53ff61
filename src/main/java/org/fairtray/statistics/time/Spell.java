package org.fairtray.statistics.time;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * So many seeds that germinated at some time within a spell.
 *
 * @param after its beginning, 0 or more
 * @param until its end; infinite for seeds that had not germinated when last looked at
 * @param seeds above 0
 */
record Spell(double after, double until, long seeds) {

    /** The spells of trays, which may have been read on different days; those of the same ends added up. */
    static List<Spell> of(List<DayCounts> trays) {
        Map<List<Double>, Long> seeds = new TreeMap<>((a, b) -> a.get(0).equals(b.get(0))
                ? a.get(1).compareTo(b.get(1))
                : a.get(0).compareTo(b.get(0)));
        for (var tray : trays) {
            for (int i = 0; i < tray.size(); i++) {
                seeds.merge(
                        List.of(tray.before(i), tray.days().get(i)),
                        tray.events().get(i),
                        Long::sum);
            }
            double last = tray.days().get(tray.size() - 1);
            seeds.merge(List.of(last, Double.POSITIVE_INFINITY), tray.seeds() - tray.germinated(), Long::sum);
        }
        var spells = new ArrayList<Spell>();
        seeds.forEach((ends, number) -> {
            if (number > 0) {
                spells.add(new Spell(ends.get(0), ends.get(1), number));
            }
        });
        return List.copyOf(spells);
    }

    /** Whether its seeds germinated, rather than were still seeds at the end. */
    boolean ended() {
        return until < Double.POSITIVE_INFINITY;
    }

    /** Half way through it. */
    double middle() {
        return (after + until) / 2;
    }
}
