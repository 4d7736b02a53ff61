package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Shares many treatments out to panels of few lines each: by the levels of as few factors as will do, so that lines of
 * one panel differ in the rest; and simply in order where no factor helps.
 */
final class LinePanels {
    private static final int MOST_FACTORS = 10;

    private LinePanels() {}

    /**
     * Treatments drawn together.
     *
     * @param common the levels they share and other panels don't; empty where there is one panel
     */
    record Panel(Map<String, String> common, List<Map<String, String>> treatments) {}

    static List<Panel> of(List<Map<String, String>> treatments, int mostLines) {
        if (treatments.size() <= mostLines) {
            return List.of(new Panel(Map.of(), treatments));
        }
        var factors = List.copyOf(Names.varying(treatments));
        List<Panel> best = List.of();
        int subsets = 1 << Math.min(MOST_FACTORS, factors.size());
        for (int subset = 1; subset < subsets; subset++) {
            var panels = by(chosen(factors, subset), treatments);
            boolean fits = panels.stream().allMatch(p -> p.treatments().size() <= mostLines);
            boolean useful = panels.size() < treatments.size();
            if (fits && useful && (best.isEmpty() || panels.size() < best.size())) {
                best = panels;
            }
        }
        return best.isEmpty() ? inOrder(treatments, mostLines) : best;
    }

    private static Set<String> chosen(List<String> factors, int subset) {
        var chosen = new LinkedHashSet<String>();
        for (int i = 0; i < factors.size(); i++) {
            if ((subset >> i & 1) == 1) {
                chosen.add(factors.get(i));
            }
        }
        return chosen;
    }

    private static List<Panel> by(Set<String> factors, List<Map<String, String>> treatments) {
        var groups = new LinkedHashMap<Map<String, String>, List<Map<String, String>>>();
        for (var treatment : treatments) {
            var common = new LinkedHashMap<>(treatment);
            common.keySet().retainAll(factors);
            groups.computeIfAbsent(common, c -> new ArrayList<>()).add(treatment);
        }
        return groups.entrySet().stream()
                .map(g -> new Panel(g.getKey(), g.getValue()))
                .toList();
    }

    private static List<Panel> inOrder(List<Map<String, String>> treatments, int mostLines) {
        var panels = new ArrayList<Panel>();
        for (int start = 0; start < treatments.size(); start += mostLines) {
            panels.add(new Panel(Map.of(), treatments.subList(start, Math.min(treatments.size(), start + mostLines))));
        }
        return panels;
    }
}
