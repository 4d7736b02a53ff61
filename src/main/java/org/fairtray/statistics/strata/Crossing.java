package org.fairtray.statistics.strata;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.fairtray.statistics.Grouping;

/**
 * Whether two groupings are crossed evenly: within every set of groups that are linked by things they share, the number
 * of things in both a and b is (size of a)(size of b)/(size of the set). Their averages then commute.
 *
 * <p>Source: Bailey (2008), Design of Comparative Experiments, section 10.6 (orthogonal factors).
 */
final class Crossing {
    private Crossing() {}

    /**
     * Whether a and b are even, and the sets of linked groups are told apart by a grouping that both lie in.
     *
     * @param coarser groupings that a lies in
     */
    static boolean isEven(Grouping a, Grouping b, List<Grouping> coarser) {
        int[] of = linked(a, b);
        var sets = Grouping.by(Arrays.stream(of).boxed().toList());
        boolean known = sets.groups() == 1 || coarser.stream().anyMatch(c -> c.finerThan(sets) && sets.finerThan(c));
        return known && proportional(a, b, sets);
    }

    private static boolean proportional(Grouping a, Grouping b, Grouping sets) {
        Map<List<Integer>, Integer> together = new HashMap<>();
        int[] ofA = a.of();
        int[] ofB = b.of();
        for (int i = 0; i < ofA.length; i++) {
            together.merge(List.of(ofA[i], ofB[i]), 1, Integer::sum);
        }
        int[] sizeA = a.sizes();
        int[] sizeB = b.sizes();
        int[] sizeSet = sets.sizes();
        int[] ofSet = sets.of();
        for (int i = 0; i < ofA.length; i++) {
            long both = together.get(List.of(ofA[i], ofB[i]));
            if (both * sizeSet[ofSet[i]] != (long) sizeA[ofA[i]] * sizeB[ofB[i]]) {
                return false;
            }
        }
        return allMeet(together.keySet(), a, b, sets);
    }

    /** Groups of a linked set that never meet would have an expected number above 0 and an actual one of 0. */
    private static boolean allMeet(Set<List<Integer>> together, Grouping a, Grouping b, Grouping sets) {
        var groupsA = groupsBySet(a, sets);
        var groupsB = groupsBySet(b, sets);
        long expected = 0;
        for (int set = 0; set < sets.groups(); set++) {
            expected += (long) groupsA.get(set).size() * groupsB.get(set).size();
        }
        return expected == together.size();
    }

    private static List<Set<Integer>> groupsBySet(Grouping grouping, Grouping sets) {
        var bySet = new ArrayList<Set<Integer>>();
        for (int set = 0; set < sets.groups(); set++) {
            bySet.add(new HashSet<>());
        }
        int[] of = grouping.of();
        int[] ofSet = sets.of();
        for (int i = 0; i < of.length; i++) {
            bySet.get(ofSet[i]).add(of[i]);
        }
        return bySet;
    }

    /** The number of the linked set of each thing: the finest division in which both groupings lie. */
    private static int[] linked(Grouping a, Grouping b) {
        var membersA = members(a);
        var membersB = members(b);
        int[] ofA = a.of();
        int[] ofB = b.of();
        var set = new int[a.size()];
        Arrays.fill(set, -1);
        for (int start = 0; start < set.length; start++) {
            if (set[start] < 0) {
                var waiting = new ArrayDeque<>(List.of(start));
                set[start] = start;
                while (!waiting.isEmpty()) {
                    int i = waiting.pop();
                    spread(membersA, ofA[i], set, start, waiting);
                    spread(membersB, ofB[i], set, start, waiting);
                }
            }
        }
        return set;
    }

    private static void spread(
            List<List<Integer>> members, int group, int[] set, int mark, ArrayDeque<Integer> waiting) {
        for (int i : members.get(group)) {
            if (set[i] < 0) {
                set[i] = mark;
                waiting.push(i);
            }
        }
        members.set(group, List.of());
    }

    private static List<List<Integer>> members(Grouping grouping) {
        var members = new ArrayList<List<Integer>>();
        for (int g = 0; g < grouping.groups(); g++) {
            members.add(new ArrayList<>());
        }
        int[] of = grouping.of();
        for (int i = 0; i < of.length; i++) {
            members.get(of[i]).add(i);
        }
        return members;
    }
}
