package org.fairtray.design;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.fairtray.trial.Place;

/** What a textbook says of a layout: where its name comes from, and its place as nested and crossed levels. */
public final class Textbook {
    private static final String GENERAL = "Bailey (2008), Design of Comparative Experiments";
    private static final String YATES_1935 =
            "Yates (1935), Complex experiments, Supplement to the Journal of the Royal Statistical Society 2, 181-247";
    private static final String YATES_1936 =
            "Yates (1936), Incomplete randomized blocks, Annals of Eugenics 7, 121-140";
    private static final String YATES_1937 = "Yates (1937), The Design and Analysis of Factorial Experiments";
    private static final String BOX_HUNTER =
            "Box and Hunter (1961), The 2^(k-p) fractional factorial designs, Technometrics 3, 311-351";
    private static final String STRIPS = "Cochran and Cox (1957), Experimental Designs, section 7.32";

    /** Sources of the terms, from memory but for those that stand beside a check elsewhere. */
    private static final Map<String, String> SOURCES = Map.ofEntries(
            Map.entry("completely randomised", "Cochran and Cox (1957), Experimental Designs, chapter 4"),
            Map.entry("randomised blocks", "Fisher (1935), The Design of Experiments, chapter 4"),
            Map.entry("Latin square", "Fisher (1935), The Design of Experiments, chapter 5"),
            Map.entry(
                    "Youden square",
                    "Youden (1937), Use of incomplete block replications in estimating tobacco-mosaic virus,"
                            + " Contributions from Boyce Thompson Institute 9, 41-48"),
            Map.entry("balanced incomplete blocks", YATES_1936),
            Map.entry("incomplete blocks", YATES_1936),
            Map.entry(
                    "resolvable incomplete blocks",
                    "Patterson and Williams (1976), A new class of resolvable incomplete block designs, Biometrika 63,"
                            + " 83-92"),
            Map.entry("fractional factorial", BOX_HUNTER),
            Map.entry("fractional factorial in blocks", BOX_HUNTER),
            Map.entry("confounded factorial in blocks", YATES_1937),
            Map.entry("split-plot", YATES_1935),
            Map.entry("split-split-plot", YATES_1935),
            Map.entry("strip-plot", STRIPS),
            Map.entry("strip-split-plot", STRIPS));

    private Textbook() {}

    /**
     * Where a layout's name comes from.
     *
     * @param name of the layout, see {@link DesignName}
     * @param factors how many there are; several make a factorial
     */
    public static String source(String name, int factors) {
        String source = SOURCES.getOrDefault(name, GENERAL);
        return factors > 1 && !source.equals(YATES_1937) ? source + "; for factorials: " + YATES_1937 : source;
    }

    /**
     * The place with the number of units beside each level: {@code shelf (2) → (stack (3) × position (4))}. An arrow leads to
     * what lies in each of them, × stands between levels that cross.
     *
     * <p>Source of the signs: Nelder (1965), The analysis of randomized experiments with orthogonal block structure,
     * Proceedings of the Royal Society A 283, 147-178 (from memory).
     */
    public static String place(Place place) {
        return place(place.levels());
    }

    private static String place(List<Place.Level> levels) {
        var head = levels.get(0);
        String made = one(head);
        var inside = new ArrayList<Place.Level>();
        for (var level : levels.subList(1, levels.size())) {
            if (level.across().filter(head.name()::equals).isPresent()) {
                made = "(" + nested(made, inside) + " × " + one(level) + ")";
                inside.clear();
            } else {
                inside.add(level);
            }
        }
        return nested(made, inside);
    }

    private static String nested(String outside, List<Place.Level> inside) {
        return inside.isEmpty() ? outside : outside + " → " + place(inside);
    }

    private static String one(Place.Level level) {
        return level.name() + " (" + level.count() + ")";
    }
}
