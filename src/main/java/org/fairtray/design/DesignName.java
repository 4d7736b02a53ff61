package org.fairtray.design;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * The textbook's name of a layout, told from what it is and not from how it came about.
 *
 * <p>Sources of the terms: Cochran and Cox (1957), Experimental Designs, 2nd ed.; Yates (1935), Complex experiments
 * (split and strip plots); Bailey (2008), Design of Comparative Experiments; from memory: Youden (1937)
 * (Youden square), Patterson and Williams (1976), Biometrika 63, 83-92 (resolvable), John (1963), Australian Journal of
 * Statistics 5, 147-152 (extended blocks), Box and Hunter (1961), Technometrics 3,
 * 311-351 (fractional factorial).
 *
 * @param name such as "split-plot" or "Latin square"
 * @param treatments such as "2 × 3 factorial" or "4 treatments"
 * @param sentence what is applied to what, and what the blocks are
 */
public record DesignName(String name, String treatments, String sentence) {

    /** The name of a layout. */
    public static DesignName of(Structure structure) {
        var levels = appliedLevels(structure.trial());
        var name = levels.size() == 1 ? oneSize(structure, levels.get(0)) : severalSizes(structure.trial(), levels);
        return new DesignName(name, treatments(structure.trial()), sentence(structure, levels, name));
    }

    private static List<String> appliedLevels(Trial trial) {
        return trial.factors().stream().map(trial::appliedLevel).distinct().toList();
    }

    private static String severalSizes(Trial trial, List<String> levels) {
        var place = trial.place();
        boolean crossed = levels.stream()
                .anyMatch(a ->
                        levels.stream().anyMatch(b -> !a.equals(b) && !place.contains(a, b) && !place.contains(b, a)));
        if (crossed) {
            return levels.contains(Place.TRAY) ? "strip-split-plot" : "strip-plot";
        }
        return "split-".repeat(levels.size() - 1) + "plot";
    }

    private static String oneSize(Structure structure, String level) {
        var place = structure.trial().place();
        var outside = place.names().stream()
                .filter(l -> place.contains(l, level)
                        && !structure.trial().moves(l)
                        && structure.units(l).groups() > 1)
                .toList();
        var blocks = outside.stream()
                .filter(l -> outside.stream().noneMatch(inner -> place.contains(l, inner)))
                .toList();
        return switch (blocks.size()) {
            case 0 -> isFraction(structure) ? "fractional factorial" : "completely randomised";
            case 1 -> blockDesign(structure, level, structure.units(blocks.get(0)));
            case 2 -> rowsAndColumns(structure, level, structure.units(blocks.get(0)), structure.units(blocks.get(1)));
            default -> "multi-way blocks";
        };
    }

    private static String blockDesign(Structure structure, String level, Grouping blocks) {
        var incidence = incidence(structure, level, blocks);
        if (isFraction(structure)) {
            return "fractional factorial in blocks";
        }
        if (complete(incidence, treatmentsSown(structure))) {
            return "randomised blocks";
        }
        if (structure.trial().factors().size() > 1) {
            return structure.decomposition().isOrthogonal() ? "confounded factorial in blocks" : "incomplete blocks";
        }
        if (incidence.values().stream().allMatch(b -> b.size() == treatmentsSown(structure))) {
            return "extended blocks";
        }
        if (balanced(structure) && sameSize(incidence)) {
            return "balanced incomplete blocks";
        }
        return resolvable(structure, level) ? "resolvable incomplete blocks" : "incomplete blocks";
    }

    /** Whether some of the combinations that could be made are not, so that effects are mixed up with each other. */
    private static boolean isFraction(Structure structure) {
        return structure.trial().factors().size() > 1
                && treatmentsSown(structure) < structure.trial().treatments().size();
    }

    /** Whether the units of some level around the blocks hold full sets (alpha designs, lattices). */
    private static boolean resolvable(Structure structure, String level) {
        var place = structure.trial().place();
        return place.names().stream()
                .filter(l -> place.contains(l, level) && structure.units(l).groups() > 1)
                .anyMatch(l -> complete(incidence(structure, level, structure.units(l)), treatmentsSown(structure)));
    }

    private static String rowsAndColumns(Structure structure, String level, Grouping rows, Grouping columns) {
        long treatments = treatmentsSown(structure);
        boolean inRows = complete(incidence(structure, level, rows), treatments);
        boolean inColumns = complete(incidence(structure, level, columns), treatments);
        boolean square = rows.groups() == treatments && columns.groups() == treatments;
        int units = structure.units(level).groups();
        if (inRows && inColumns && square && units == treatments * treatments) {
            return "Latin square";
        }
        if (inRows != inColumns && balanced(structure) && units == rows.groups() * columns.groups()) {
            return "Youden square";
        }
        return inRows && inColumns ? "Latin rectangles" : "row-column";
    }

    /** How often each treatment stands in each block, counting units. */
    private static Map<Integer, Map<Treatment, Integer>> incidence(Structure structure, String level, Grouping blocks) {
        int[] unit = structure.units(level).of();
        int[] block = blocks.of();
        Map<Integer, Map<Treatment, Integer>> incidence = new LinkedHashMap<>();
        var seen = new HashMap<Integer, Boolean>();
        for (int i = 0; i < unit.length; i++) {
            if (seen.put(unit[i], true) == null) {
                incidence
                        .computeIfAbsent(block[i], b -> new HashMap<>())
                        .merge(structure.trays().get(i).treatment(), 1, Integer::sum);
            }
        }
        return incidence;
    }

    private static boolean complete(Map<Integer, Map<Treatment, Integer>> incidence, long treatments) {
        return incidence.values().stream()
                .allMatch(b ->
                        b.size() == treatments && b.values().stream().distinct().count() == 1);
    }

    private static boolean sameSize(Map<Integer, Map<Treatment, Integer>> incidence) {
        return incidence.values().stream()
                        .map(b ->
                                b.values().stream().mapToInt(Integer::intValue).sum())
                        .distinct()
                        .count()
                == 1;
    }

    /** Whether every contrast of the treatments has the same efficiency within the innermost stratum. */
    private static boolean balanced(Structure structure) {
        return structure.decomposition().evenIn(structure.strataNames().size() - 1);
    }

    private static long treatmentsSown(Structure structure) {
        return structure.trays().stream().map(t -> t.treatment()).distinct().count();
    }

    private static String treatments(Trial trial) {
        if (trial.factors().size() == 1) {
            return trial.factors().get(0).levels().size() + " treatments";
        }
        return trial.factors().stream()
                        .map(f -> Integer.toString(f.levels().size()))
                        .collect(Collectors.joining(" × "))
                + " factorial"
                + (trial.never().isEmpty() ? "" : " with combinations left out");
    }

    private static String sentence(Structure structure, List<String> levels, String name) {
        var trial = structure.trial();
        var levelsAndBatches = new ArrayList<>(levels);
        var parts = new ArrayList<String>();
        for (Factor factor : trial.factors()) {
            structure.batchesOf(factor.name()).map(b -> b.name()).ifPresent(b -> {
                levelsAndBatches.add(b);
                parts.add(factor.name() + " on " + groups(structure, b) + " × " + b);
            });
        }
        for (String level : levels) {
            String factors = trial.factors().stream()
                    .filter(f -> trial.appliedLevel(f).equals(level)
                            && structure.batchesOf(f.name()).isEmpty())
                    .map(Factor::name)
                    .collect(Collectors.joining(" × "));
            if (!factors.isEmpty()) {
                parts.add(factors + " on " + structure.units(level).groups() + " × " + level);
            }
        }
        var others = structure.strataNames().stream()
                .filter(l -> !levelsAndBatches.contains(l) && !l.equals(Place.TRAY))
                .map(l -> l + " (" + groups(structure, l) + ")")
                .toList();
        return (name.matches("[ie].*") ? "An " : "A ") + name + " layout: " + String.join(", ", parts)
                + (others.isEmpty() ? "." : "; differences between " + String.join(", ", others) + " are set aside.");
    }

    private static int groups(Structure structure, String stratum) {
        return structure
                .strata()
                .grouping(structure.strataNames().indexOf(stratum))
                .groups();
    }
}
