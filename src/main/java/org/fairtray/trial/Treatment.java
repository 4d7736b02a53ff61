package org.fairtray.trial;

import java.util.Collection;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What a tray gets: one level for each of some factors. Two treatments are equal when they give the same levels, in
 * whatever order they were written.
 *
 * @param levels level by factor name, in the order of the plan
 */
public record Treatment(Map<String, String> levels) {

    public Treatment {
        levels = Collections.unmodifiableMap(new LinkedHashMap<>(levels));
    }

    /** The level of a factor, or null where this treatment doesn't name the factor. */
    public String level(String factor) {
        return levels.get(factor);
    }

    /** Whether this treatment gives every level that {@code part} names. */
    public boolean includes(Treatment part) {
        for (var entry : part.levels.entrySet()) {
            if (!entry.getValue().equals(levels.get(entry.getKey()))) {
                return false;
            }
        }
        return true;
    }

    /** This treatment with the levels of another added. */
    public Treatment with(Treatment other) {
        var all = new LinkedHashMap<>(levels);
        all.putAll(other.levels);
        return new Treatment(all);
    }

    /** Only the levels of the given factors, in their order. */
    public Treatment only(Collection<String> factors) {
        var some = new LinkedHashMap<String, String>();
        factors.forEach(f -> {
            if (levels.containsKey(f)) {
                some.put(f, levels.get(f));
            }
        });
        return new Treatment(some);
    }

    /** The levels in words, such as "soak 8, mat hemp". */
    public String describe() {
        return levels.entrySet().stream()
                .map(e -> e.getKey() + " " + e.getValue())
                .collect(Collectors.joining(", "));
    }
}
