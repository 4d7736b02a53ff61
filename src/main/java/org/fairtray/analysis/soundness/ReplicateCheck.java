package org.fairtray.analysis.soundness;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.comparisons.Holm;

/**
 * Whether trays treated alike, in the same unit of every place level, differ by no more than seeds alone would make them:
 * four trays of 100 seeds by the seed tester's table, others by the exact distribution of their range. Of several such
 * groups it takes one that stands out among all of them (Holm's adjustment) to call the data unsound.
 */
final class ReplicateCheck {
    private static final String KIND = "replicates";

    private ReplicateCheck() {}

    static DataCheck of(Structure structure, List<Count> counts) {
        var groups = groups(structure, counts);
        if (groups.isEmpty()) {
            return DataCheck.notMade(
                    KIND,
                    "No two trays treated alike stood in the same place, so replicates can't be held against each other"
                            + " directly.");
        }
        double[] p = groups.stream().mapToDouble(Replicates::p).toArray();
        double[] adjusted = Holm.adjust(p);
        var beyond = IntStream.range(0, p.length)
                .filter(g -> groups.get(g).beyond())
                .boxed()
                .toList();
        var standing = beyond.stream()
                .filter(g -> p.length == 1 || adjusted[g] <= Replicates.ERROR)
                .toList();
        double least =
                IntStream.range(0, p.length).mapToDouble(g -> adjusted[g]).min().orElse(1);
        String sentence = sentence(groups, beyond.size(), least);
        return standing.isEmpty()
                ? DataCheck.sound(KIND, "range", (double) beyond.size(), least, sentence)
                : new DataCheck(
                        KIND,
                        false,
                        codes(structure, groups, standing),
                        "range",
                        (double) beyond.size(),
                        least,
                        sentence,
                        "Look for what made these trays differ: place, water, sowing, counting. They stay in, and the"
                                + " analysis allows for trays that differ; where a count may be wrong, count again.");
    }

    private static List<Replicates> groups(Structure structure, List<Count> counts) {
        int n = counts.size();
        var keys = new ArrayList<List<Object>>();
        for (int i = 0; i < n; i++) {
            keys.add(new ArrayList<>(List.of(structure.trays().get(i).treatment())));
        }
        for (int s = 0; s < structure.strata().size() - 1; s++) {
            int[] unit = structure.strata().grouping(s).of();
            IntStream.range(0, n).forEach(i -> keys.get(i).add(unit[i]));
        }
        int[] group = Grouping.by(keys).of();
        var members = new ArrayList<List<Integer>>();
        for (int i = 0; i < n; i++) {
            if (group[i] == members.size()) {
                members.add(new ArrayList<>());
            }
            members.get(group[i]).add(i);
        }
        return members.stream()
                .filter(m -> m.size() > 1)
                .map(m -> new Replicates(m, m.stream().map(counts::get).toList()))
                .toList();
    }

    private static List<String> codes(Structure structure, List<Replicates> groups, List<Integer> standing) {
        return standing.stream()
                .flatMap(g -> groups.get(g).trays().stream())
                .map(i -> structure.trays().get(i).code())
                .toList();
    }

    private static String sentence(List<Replicates> groups, int beyond, double least) {
        String measure = groups.stream().allMatch(Replicates::isTabled)
                ? "the seed tester's tolerance for four replicates of 100"
                : "what seeds alone make likely (1 chance in 40)";
        return "Of " + groups.size() + (groups.size() == 1 ? " group" : " groups")
                + " of trays treated alike in the same"
                + " place, " + beyond + (beyond == 1 ? " differs" : " differ") + " by more than " + measure + " (least "
                + Words.p(least) + (groups.size() == 1 ? ")." : ", for all groups together).");
    }
}
