package org.fairtray.pooling;

import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * Words as several growers write them. Words that differ in capitals and in spaces around them alone are one; the spelling
 * that most use is the one to speak of.
 */
final class Spellings {
    private final Map<String, Map<String, Integer>> byWord = new TreeMap<>();
    private final Map<String, Set<String>> together = new TreeMap<>();

    /** What two spellings of one word have in common. */
    static String folded(String word) {
        return word.strip().toLowerCase(Locale.ROOT);
    }

    /** Takes in the words that one trial uses for things that it holds apart. */
    void add(List<String> words) {
        var folded = new LinkedHashSet<String>();
        words.forEach(w -> folded.add(folded(w)));
        words.forEach(
                w -> byWord.computeIfAbsent(folded(w), f -> new TreeMap<>()).merge(w, 1, Integer::sum));
        folded.forEach(w -> together.computeIfAbsent(w, f -> new TreeSet<>()).addAll(folded));
    }

    /** The spelling to speak of. */
    String common(String word) {
        var spellings = byWord.getOrDefault(folded(word), Map.of(word, 1));
        return spellings.entrySet().stream()
                .max(Comparator.comparingInt((Map.Entry<String, Integer> e) -> e.getValue())
                        .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                .orElseThrow()
                .getKey();
    }

    /** How many trials use a word, however they write it. */
    int uses(String word) {
        return byWord.getOrDefault(folded(word), Map.of()).values().stream()
                .mapToInt(Integer::intValue)
                .sum();
    }

    /** Whether some trial uses both words, and so for different things. */
    boolean heldApart(String one, String other) {
        return together.getOrDefault(folded(one), Set.of()).contains(folded(other));
    }

    /** The words in their common spelling, those that most trials use first. */
    List<String> byUse() {
        return byWord.keySet().stream()
                .map(this::common)
                .sorted(Comparator.comparingInt(this::uses).reversed().thenComparing(w -> w))
                .toList();
    }

    /** Words that are written in more than one way, each with its ways. */
    List<List<String>> severalWays() {
        return byWord.values().stream()
                .filter(s -> s.size() > 1)
                .map(s -> List.copyOf(s.keySet()))
                .toList();
    }
}
