package org.fairtray.files;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;

/** Reads what is varied, and the batches that trays of one level share. */
final class FactorReader {
    static final List<String> KEYS = List.of("name", "unit", "levels", "applied_to");
    static final List<String> BATCH_KEYS = List.of("name", "of", "count");
    private static final int MOST_LEVELS = 1000;
    private static final int MOST_BATCHES = 100_000;
    private static final Pattern NUMBER = Pattern.compile("[-+]?(\\d+(\\.\\d*)?|\\.\\d+)");

    private final TakenNames taken;
    private final List<String> units;
    private final List<String> batchNames;
    private final Map<String, PlanValue> byBatch = new LinkedHashMap<>();
    private final Map<String, List<String>> levels = new LinkedHashMap<>();

    /**
     * @param places the names of the place levels
     * @param batchNames those of the batches, sound or not
     */
    FactorReader(TakenNames taken, List<String> places, List<String> batchNames) {
        this.taken = taken;
        this.batchNames = batchNames;
        this.units = new ArrayList<>(places);
        this.units.add(Place.TRAY);
        this.units.addAll(batchNames);
    }

    /** The names of batches as they stand in the plan; what is wrong with them is told when they are read. */
    static List<String> batchNames(PlanValue value) {
        var quiet = new PlanValue(value.what(), value.node(), value.keyLine(), new Problems(PlanFile.NAME));
        return quiet.each(
                "batches",
                "a batch",
                item -> item.keys().flatMap(keys -> keys.optional("name")).flatMap(PlanValue::name));
    }

    /** The factors that are sound. */
    List<Factor> read(PlanValue value) {
        return value.each("factors", "a factor", this::factor);
    }

    /** The levels of every factor whose name could be read, as far as they could be, by factor. */
    Map<String, List<String>> levels() {
        return Collections.unmodifiableMap(levels);
    }

    private Optional<Factor> factor(PlanValue item) {
        return item.keys(KEYS).flatMap(keys -> {
            var name = keys.required("name").flatMap(v -> taken.take(v, "a factor"));
            var read = keys.required("levels").map(FactorReader::levels).orElse(List.of());
            var unit = keys.optional("unit");
            var unitName = unit.flatMap(PlanValue::name);
            var to = keys.optional("applied_to");
            var appliedTo = to.isEmpty() ? Optional.of(Place.TRAY) : to.get().oneOf("place level", units);
            name.filter(n -> appliedTo.filter(batchNames::contains).isPresent())
                    .ifPresent(n -> byBatch.put(n, to.get()));
            name.ifPresent(n -> levels.put(n, read));
            boolean sound = name.isPresent()
                    && read.size() > 1
                    && unit.isPresent() == unitName.isPresent()
                    && appliedTo.isPresent();
            return sound ? Optional.of(new Factor(name.get(), unitName, read, appliedTo.get())) : Optional.empty();
        });
    }

    private static List<String> levels(PlanValue value) {
        var items = value.items("two or more levels", "level");
        if (items.size() == 1) {
            value.problems().add(value.line(), "one level only", "two or more levels");
        }
        if (items.size() > MOST_LEVELS) {
            value.problems().add(value.line(), items.size() + " levels", "at most " + MOST_LEVELS);
            return List.of();
        }
        var levels = new ArrayList<String>();
        items.forEach(item -> item.name().ifPresent(level -> add(levels, level, item)));
        return List.copyOf(levels);
    }

    private static void add(List<String> levels, String level, PlanValue item) {
        var same = levels.stream().filter(l -> same(l, level)).findFirst();
        if (same.isPresent()) {
            item.refuse("different levels" + (same.get().equals(level) ? "" : "; it is the same as " + same.get()));
        } else {
            levels.add(level);
        }
    }

    private static boolean same(String a, String b) {
        boolean numbers = NUMBER.matcher(a).matches() && NUMBER.matcher(b).matches();
        return numbers ? new BigDecimal(a).compareTo(new BigDecimal(b)) == 0 : a.equals(b);
    }

    /** The batches that are sound. */
    List<Batch> batches(PlanValue value) {
        return value.each("batches", "a batch", this::batch);
    }

    /**
     * Factors with those applied to a batch given to trays: that these come out of batches is what the batch itself
     * says. Such a batch must be one of the factor's own.
     */
    List<Factor> givenByBatch(List<Factor> factors, List<Batch> batches) {
        return factors.stream().map(f -> givenByBatch(f, batches)).toList();
    }

    private Factor givenByBatch(Factor factor, List<Batch> batches) {
        if (!byBatch.containsKey(factor.name())) {
            return factor;
        }
        var other = batches.stream()
                .filter(b -> b.name().equals(factor.appliedTo()) && !b.of().equals(factor.name()))
                .findFirst();
        other.ifPresent(b -> byBatch.get(factor.name())
                .refuse("a batch of " + factor.name() + "; " + b.name() + " is one of " + b.of()));
        return new Factor(factor.name(), factor.unit(), factor.levels(), Place.TRAY);
    }

    private Optional<String> factorName(PlanValue value) {
        // Factors without a readable name have been reported where they stand.
        return levels.isEmpty() ? value.name() : value.oneOf("factor", List.copyOf(levels.keySet()));
    }

    private Optional<Batch> batch(PlanValue item) {
        return item.keys(BATCH_KEYS).flatMap(keys -> {
            var name = keys.required("name").flatMap(v -> taken.take(v, "a batch"));
            var of = keys.required("of").flatMap(this::factorName);
            var count = keys.required("count").map(v -> v.whole(1, MOST_BATCHES));
            return name.isPresent()
                            && of.isPresent()
                            && count.isPresent()
                            && count.get().isPresent()
                    ? Optional.of(new Batch(name.get(), of.get(), count.get().getAsInt()))
                    : Optional.empty();
        });
    }
}
