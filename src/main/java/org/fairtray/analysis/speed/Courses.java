package org.fairtray.analysis.speed;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Treatment;

/**
 * What came out of each tray by day.
 *
 * @param structure of the trays
 * @param counts one for each tray, in the structure's order
 */
public record Courses(Structure structure, List<DayCounts> counts) {

    public Courses {
        counts = List.copyOf(counts);
    }

    /**
     * The courses of a structure's trays; empty where none was read on two days or nothing came out: there is then
     * nothing to say of speed.
     *
     * @param byTray of every tray of the structure, or of none
     */
    public static Optional<Courses> of(Structure structure, Map<String, DayCounts> byTray) {
        boolean tellSpeed = byTray.values().stream().anyMatch(c -> c.size() > 1)
                && byTray.values().stream().anyMatch(c -> c.germinated() > 0);
        return tellSpeed
                ? Optional.of(new Courses(
                        structure,
                        structure.trays().stream()
                                .map(t -> byTray.get(t.code()))
                                .toList()))
                : Optional.empty();
    }

    /** The trays of each treatment, treatments in the plan's order. */
    Map<Treatment, List<DayCounts>> byTreatment() {
        var all = new LinkedHashMap<Treatment, List<DayCounts>>();
        structure.trial().treatments().forEach(t -> all.put(t, new ArrayList<>()));
        for (int i = 0; i < counts.size(); i++) {
            all.computeIfAbsent(structure.trays().get(i).treatment(), t -> new ArrayList<>())
                    .add(counts.get(i));
        }
        all.values().removeIf(List::isEmpty);
        return all;
    }

    /** Trays added up, on the days on which all of them were read. */
    static DayCounts pooled(List<DayCounts> trays) {
        var days = new ArrayList<>(trays.get(0).days());
        trays.forEach(t -> days.retainAll(t.days()));
        return trays.stream().map(t -> on(days, t)).reduce(DayCounts::plus).orElseThrow();
    }

    /** As if a tray had been read on some of its days only, among them its last. */
    private static DayCounts on(List<Double> days, DayCounts tray) {
        var events = new ArrayList<Long>();
        long sum = 0;
        for (int i = 0; i < tray.size(); i++) {
            sum += tray.events().get(i);
            if (days.contains(tray.days().get(i))) {
                events.add(sum);
                sum = 0;
            }
        }
        return new DayCounts(days, events, tray.seeds());
    }

    /** Whether all trays were read on the same days. */
    public boolean readTogether() {
        return counts.stream().map(DayCounts::days).distinct().count() == 1;
    }
}
