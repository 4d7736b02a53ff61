package org.fairtray.pooling;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.Contribution.FactorPart;
import org.fairtray.trial.Area;
import org.fairtray.trial.CommonNames;
import org.fairtray.trial.Numbers;

/**
 * The words and units that all trials are spoken of in. Names are the same where they differ in capitals alone, or where
 * {@link CommonNames} says so; nothing else is taken for the same. Levels with units are turned into the unit that most
 * trials use, weights into weights on an area where any trial gives those.
 */
final class Glossary {
    /** Two levels that differ in later digits than these come from rounding in a conversion. */
    private static final MathContext DIGITS = new MathContext(6);

    private final CommonNames names;
    private final Spellings factors = new Spellings();
    private final Spellings outcomes = new Spellings();
    private final Spellings conditions = new Spellings();
    private final Map<String, Spellings> words = new TreeMap<>();
    private final Map<String, Map<String, Integer>> units = new HashMap<>();

    /**
     * A factor in common words.
     *
     * @param unit that its levels are in
     * @param levels one for each of the trial's own, in their order
     * @param problem why its levels can't be told in common words; empty where they can
     */
    record Factor(String name, Optional<String> unit, List<String> levels, Optional<String> problem) {}

    private Glossary(CommonNames names) {
        this.names = names;
    }

    /** The words of some trials. */
    static Glossary of(CommonNames names, SharedTrials trials) {
        var glossary = new Glossary(names);
        trials.forEach(t -> glossary.add(t.contribution()));
        return glossary;
    }

    private void add(Contribution trial) {
        var parts = trial.outcomes().stream().flatMap(o -> o.factors().stream()).toList();
        var own = parts.stream().map(FactorPart::name).distinct().toList();
        factors.add(own.stream().map(f -> mapped(names.factors(), f)).toList());
        outcomes.add(trial.outcomes().stream()
                .map(o -> mapped(names.outcomes(), o.name()))
                .toList());
        conditions.add(trial.conditions().keySet().stream()
                .map(c -> mapped(names.conditions(), c))
                .toList());
        trial.conditions().forEach((name, word) -> {
            var key = key(names.conditions(), name);
            words(key).add(List.of(level(key, word)));
        });
        for (String name : own) {
            var part = parts.stream()
                    .filter(f -> f.name().equals(name))
                    .findFirst()
                    .orElseThrow();
            var key = key(names.factors(), name);
            words(key).add(part.levels().stream().map(l -> level(key, l)).toList());
            unit(key, part)
                    .ifPresent(u ->
                            units.computeIfAbsent(key, k -> new TreeMap<>()).merge(u, 1, Integer::sum));
        }
    }

    private Spellings words(String key) {
        return words.computeIfAbsent(key, k -> new Spellings());
    }

    private static String mapped(Map<String, String> names, String own) {
        return names.getOrDefault(own, own);
    }

    private static String key(Map<String, String> names, String own) {
        return Spellings.folded(mapped(names, own));
    }

    /** A trial's own level in the word that the file of names has for it. */
    private String level(String key, String own) {
        return names.levels().entrySet().stream()
                .filter(e -> Spellings.folded(e.getKey()).equals(key))
                .map(e -> mapped(e.getValue(), own))
                .findFirst()
                .orElse(own);
    }

    private Optional<String> unit(String key, FactorPart part) {
        return part.unit().or(() -> named(names.unitWhereNone(), key));
    }

    private static Optional<String> named(Map<String, String> by, String key) {
        return by.entrySet().stream()
                .filter(e -> Spellings.folded(e.getKey()).equals(key))
                .map(Map.Entry::getValue)
                .findFirst();
    }

    /** A trial's own name of an outcome in the common word. */
    String outcome(String own) {
        return outcomes.common(mapped(names.outcomes(), own));
    }

    /** A trial's conditions in common words. */
    Map<String, String> conditions(Contribution trial) {
        var common = new TreeMap<String, String>();
        trial.conditions().forEach((name, word) -> {
            var key = key(names.conditions(), name);
            common.put(
                    conditions.common(mapped(names.conditions(), name)),
                    words(key).common(level(key, word)));
        });
        return common;
    }

    /** The level that the file of names wants others to be compared with. */
    Optional<String> against(String factor) {
        return named(names.against(), Spellings.folded(factor));
    }

    /** A trial's own factor in common words. */
    Factor factor(FactorPart part, Optional<Area> tray) {
        var key = key(names.factors(), part.name());
        var name = factors.common(mapped(names.factors(), part.name()));
        var common = unit(key);
        var own = unit(key, part);
        var levels = part.levels().stream().map(l -> level(key, l)).toList();
        if (common.isEmpty() || !levels.stream().allMatch(Numbers::isNumber)) {
            return new Factor(
                    name, common, levels.stream().map(l -> word(key, l)).toList(), Optional.empty());
        }
        if (own.isEmpty()) {
            return without(name, common, "it has no unit there, and " + common.get() + " elsewhere");
        }
        var converted = new ArrayList<String>();
        for (String level : levels) {
            var number = converted(Double.parseDouble(level), own.get(), common.get(), tray);
            if (number.isEmpty()) {
                return without(name, common, unlike(own.get(), common.get()));
            }
            converted.add(plain(number.getAsDouble()));
        }
        return new Factor(name, common, converted, Optional.empty());
    }

    private static Factor without(String name, Optional<String> unit, String problem) {
        return new Factor(name, unit, List.of(), Optional.of(problem));
    }

    private static String unlike(String own, String common) {
        var one = Unit.of(own).map(Unit::kind);
        boolean needsSize = one.equals(Optional.of(Unit.Kind.MASS))
                && Unit.of(common).map(Unit::kind).equals(Optional.of(Unit.Kind.MASS_ON_AREA));
        return "it is in " + own + " there, in " + common + " elsewhere"
                + (needsSize ? ", and the plan doesn't say how large its trays are (tray_cm)" : "");
    }

    private String word(String key, String level) {
        return Numbers.isNumber(level)
                ? plain(Double.parseDouble(level))
                : words(key).common(level);
    }

    private static OptionalDouble converted(double level, String own, String common, Optional<Area> tray) {
        if (Spellings.folded(own).equals(Spellings.folded(common))) {
            return OptionalDouble.of(level);
        }
        var from = Unit.of(own);
        var to = Unit.of(common);
        return from.isPresent() && to.isPresent() ? from.get().to(to.get(), level, tray) : OptionalDouble.empty();
    }

    /** The unit that a factor's levels are in, by its common name; empty where no trial names one. */
    Optional<String> unitOf(String factor) {
        return unit(Spellings.folded(factor));
    }

    /** The unit to speak of; empty where no trial names one. */
    private Optional<String> unit(String key) {
        var wanted = named(names.units(), key);
        if (wanted.isPresent()) {
            return wanted;
        }
        var used = units.getOrDefault(key, Map.of());
        boolean onArea = used.keySet().stream().anyMatch(u -> isKind(u, Unit.Kind.MASS_ON_AREA));
        return used.entrySet().stream()
                .filter(e -> !onArea || isKind(e.getKey(), Unit.Kind.MASS_ON_AREA))
                .max(Comparator.comparingInt((Map.Entry<String, Integer> e) -> e.getValue())
                        .thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
                .map(Map.Entry::getKey);
    }

    private static boolean isKind(String unit, Unit.Kind kind) {
        return Unit.of(unit).filter(u -> u.kind() == kind).isPresent();
    }

    private static String plain(double number) {
        var rounded = new BigDecimal(number).round(DIGITS);
        return rounded.signum() == 0 ? "0" : rounded.stripTrailingZeros().toPlainString();
    }

    /** What was taken for the same, and which units were turned into which, in sentences. */
    List<String> notes() {
        var notes = new ArrayList<String>();
        factors.severalWays().forEach(w -> notes.add(same("factor", w)));
        outcomes.severalWays().forEach(w -> notes.add(same("outcome", w)));
        words.forEach((key, spellings) -> spellings.severalWays().forEach(w -> notes.add(same("level of " + key, w))));
        units.forEach((key, used) -> {
            if (used.size() > 1) {
                notes.add("Levels of " + factors.common(key) + " are given in " + String.join(" and ", used.keySet())
                        + "; here they are in " + unit(key).orElseThrow() + ".");
            }
        });
        return notes;
    }

    private static String same(String what, List<String> ways) {
        return "Taken as one " + what + ": " + String.join(", ", ways) + ".";
    }

    Spellings factors() {
        return factors;
    }

    Spellings outcomes() {
        return outcomes;
    }

    Spellings conditions() {
        return conditions;
    }

    /** The levels of factors and the words of conditions, by factor or condition. */
    Map<String, Spellings> words() {
        return words;
    }

    /** The names that were given. */
    CommonNames names() {
        return names;
    }
}
