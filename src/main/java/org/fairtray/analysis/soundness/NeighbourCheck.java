package org.fairtray.analysis.soundness;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.design.Generator;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Words;
import org.fairtray.statistics.residuals.Neighbours;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;

/**
 * Whether trays side by side are alike in what the model leaves over. Side by side are trays whose numbers differ by 1 at
 * the last place level, or at the level that it is crossed with, and nowhere else.
 */
final class NeighbourCheck {
    private static final String KIND = "neighbours";
    private static final int EXCHANGES = 999;
    private static final long SEED = 1;

    private NeighbourCheck() {}

    static DataCheck of(Leftovers rest) {
        if (rest.structure().trial().rotation().isPresent()) {
            return DataCheck.notMade(KIND, "Trays changed places, so none had the same neighbours throughout.");
        }
        var pairs = pairs(rest.structure().trial().place(), rest.structure().trays());
        if (pairs.isEmpty() || rest.ofTrays().df() < 3 || rest.ofTrays().sumOfSquares() == 0) {
            return DataCheck.notMade(
                    KIND, "Whether neighbours are alike can't be told: too few trays stand side by side.");
        }
        var found = Neighbours.of(
                rest.ofTrays().residuals(), pairs, rest.ofTrays().absorbed(), EXCHANGES, Generator.of(SEED));
        if (found.p() >= Soundness.LEVEL) {
            return DataCheck.sound(
                    KIND, "moran", found.moran(), found.p(), "Trays side by side are no more alike than others.");
        }
        return new DataCheck(
                KIND,
                false,
                List.of(),
                "moran",
                found.moran(),
                found.p(),
                "Trays side by side are more alike than trays farther apart (" + Words.p(found.p()) + ").",
                "Something works on several places at once, such as a lamp, a draught or a leak. Next time make smaller"
                        + " blocks of neighbours, each with every treatment.");
    }

    static List<Neighbours.Pair> pairs(Place place, List<Tray> trays) {
        int last = place.levels().size() - 1;
        var along = new ArrayList<>(List.of(last));
        place.levels().get(last).across().ifPresent(l -> along.add(place.names().indexOf(l)));
        Map<List<Integer>, Integer> standing = new HashMap<>();
        for (int i = 0; i < trays.size(); i++) {
            standing.put(trays.get(i).stand().at(), i);
        }
        var pairs = new ArrayList<Neighbours.Pair>();
        for (int i = 0; i < trays.size(); i++) {
            for (int level : along) {
                var next = new ArrayList<>(trays.get(i).stand().at());
                next.set(level, next.get(level) + 1);
                var other = standing.get(next);
                if (other != null) {
                    pairs.add(new Neighbours.Pair(i, other));
                }
            }
        }
        return pairs;
    }
}
