package org.fairtray.trial;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * Where trays can stand: shelves, stacks in shelves, positions in stacks. Each level lies inside all before it, except a
 * level with {@code across}, which is crossed with the level it names and lies inside whatever lies outside that level.
 * A <i>unit</i> of a level is one such thing (the second stack of the first shelf); it is told apart by the numbers of
 * the levels in its {@linkplain #key(String) key}.
 *
 * @param levels outermost first; the last is where one tray stands
 */
public record Place(List<Level> levels) {

    /** The name that {@code applied_to} uses for the single tray, whatever the last level is called. */
    public static final String TRAY = "tray";

    /** Words for levels that people picture lying side by side. */
    private static final Set<String> SIDEWAYS = Set.of("column", "col", "across");

    /**
     * One level of the place.
     *
     * @param name the grower's name, such as shelf
     * @param count how many lie inside each unit outside it, 1 or more
     * @param across the earlier level it is crossed with, if any
     */
    public record Level(String name, int count, Optional<String> across) {

        /** @throws IllegalArgumentException if the name is blank or the count below 1 */
        public Level {
            if (name.isBlank() || count < 1) {
                throw new IllegalArgumentException(
                        "place level '" + name + "' with count " + count + ": expected 1 or more");
            }
        }
    }

    /** @throws IllegalArgumentException if there is no level, or one is crossed with a level that isn't before it */
    public Place {
        levels = List.copyOf(levels);
        if (levels.isEmpty()) {
            throw new IllegalArgumentException("a place without levels: expected at least one");
        }
        for (int i = 0; i < levels.size(); i++) {
            var earlier = levels.subList(0, i).stream().map(Level::name).toList();
            var across = levels.get(i).across();
            if (across.isPresent() && !earlier.contains(across.get())) {
                throw new IllegalArgumentException("place level '"
                        + levels.get(i).name() + "' across '" + across.get() + "': expected one of " + earlier);
            }
        }
    }

    /** The level names, outermost first. */
    public List<String> names() {
        return levels.stream().map(Level::name).toList();
    }

    /** Whether there is a level of this name, or it is {@link #TRAY}. */
    public boolean has(String level) {
        return level.equals(TRAY) || names().contains(level);
    }

    /**
     * The coordinates that tell the units of a level apart, as indices into {@link Stand#at()}, outermost first.
     *
     * @param level a level's name, or {@link #TRAY} for all coordinates
     * @throws IllegalArgumentException if there is no such level
     */
    public List<Integer> key(String level) {
        if (level.equals(TRAY)) {
            return IntStream.range(0, levels.size()).boxed().toList();
        }
        int own = index(level);
        if (own < 0) {
            throw new IllegalArgumentException("no place level '" + level + "' among " + names());
        }
        int outside = levels.get(own).across().map(this::index).orElse(own);
        var key = new ArrayList<>(IntStream.range(0, outside).boxed().toList());
        key.add(own);
        return List.copyOf(key);
    }

    /** Whether a unit of this level is a single tray. */
    public boolean isTray(String level) {
        return key(level).size() == levels.size();
    }

    private int index(String level) {
        for (int i = 0; i < levels.size(); i++) {
            if (levels.get(i).name().equals(level)) {
                return i;
            }
        }
        return -1;
    }

    /** Whether every unit of {@code inner} lies in one unit of {@code outer}, and the two are not the same units. */
    public boolean contains(String outer, String inner) {
        var large = key(outer);
        var small = key(inner);
        return small.containsAll(large) && small.size() > large.size();
    }

    /**
     * Whether people picture the units of the innermost level one above another, as positions in a stack, and not side by
     * side. So in a place of one level.
     */
    public boolean innermostRunsDown() {
        var names = names();
        if (names.size() < 2) {
            return true;
        }
        return !SIDEWAYS.contains(names.get(names.size() - 1))
                && !names.get(names.size() - 2).equals("row");
    }

    /** How many units a level has in the whole place. */
    public int units(String level) {
        return key(level).stream().mapToInt(i -> levels.get(i).count()).reduce(1, Math::multiplyExact);
    }

    /** How many trays the place holds. */
    public int trays() {
        return units(TRAY);
    }

    /** The unit of a level in which a stand lies, named from the outside in, such as "1.2". */
    public String unit(String level, Stand stand) {
        return key(level).stream().map(i -> stand.at().get(i).toString()).collect(Collectors.joining("."));
    }

    /** A stand in words, such as "shelf 1, stack 2". */
    public String words(Stand stand) {
        return IntStream.range(0, levels.size())
                .mapToObj(i -> levels.get(i).name() + " " + stand.at().get(i))
                .collect(Collectors.joining(", "));
    }

    /** Every stand, in walking order: the last level counts fastest. */
    public List<Stand> stands() {
        List<List<Integer>> stands = List.of(List.of());
        for (Level level : levels) {
            var longer = new ArrayList<List<Integer>>();
            for (var start : stands) {
                for (int i = 1; i <= level.count(); i++) {
                    var at = new ArrayList<>(start);
                    at.add(i);
                    longer.add(at);
                }
            }
            stands = longer;
        }
        return stands.stream().map(Stand::new).toList();
    }

    /** The place as one line, such as "2 shelves..." in the form {@code shelf 2 / stack 3 / position 4 (across stack)}. */
    public String describe() {
        return levels.stream()
                .map(l -> l.name() + " " + l.count()
                        + l.across().map(a -> " (across " + a + ")").orElse(""))
                .collect(Collectors.joining(" / "));
    }
}
