package org.fairtray.design;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Which tray gets its level out of which batch. The trays of one level (or the whole stacks, for a factor that stacks get)
 * are dealt in turn to the level's batches, walking through the place with its units in random order; so every batch
 * comes equally often, as far as numbers allow, in all and in each unit of every nested place level. Random swaps then
 * even out what other factors give, crossed place levels and earlier batches, and never undo what the deal gave.
 */
final class Batching {
    /** So much more does a place weigh than a treatment: a swap can't pay for one with the other. */
    private static final long PLACE_WEIGHT = 100_000;

    private static final int MOST_SWAPS = 400_000;
    private static final int FEWEST_SWAPS = 2_000;

    private final Trial trial;
    private final Batch batch;
    private final String level;

    private Batching(Trial trial, Batch batch) {
        this.trial = trial;
        this.batch = batch;
        this.level = trial.appliedLevel(trial.factor(batch.of()));
    }

    /**
     * The trays with a batch of each kind.
     *
     * @throws DoesNotFitException if a level has more batches than trays, or units, that get it
     */
    static List<Tray> draw(Trial trial, List<Tray> trays, UniformRandomProvider random) {
        var drawn = trays;
        for (Batch batch : trial.batches()) {
            drawn = new Batching(trial, batch).draw(drawn, random);
        }
        return drawn;
    }

    /** How a kind of batch is drawn, for people. */
    static String describe(Trial trial, Batch batch) {
        var others =
                trial.factorNames().stream().filter(f -> !f.equals(batch.of())).collect(Collectors.joining(" and "));
        String units = trial.appliedLevel(trial.factor(batch.of()));
        return "Each level of %s has %d × %s: which %s is for which %s is drawn at random, equally often as far as possible, in every place%s."
                .formatted(
                        batch.of(),
                        batch.count(),
                        batch.name(),
                        batch.name(),
                        units,
                        others.isEmpty() ? "" : " and with every " + others);
    }

    private List<Tray> draw(List<Tray> trays, UniformRandomProvider random) {
        var drawn = new ArrayList<>(trays);
        for (String of : trial.factor(batch.of()).levels()) {
            Map<String, List<Integer>> units = new LinkedHashMap<>();
            for (int t = 0; t < trays.size(); t++) {
                if (trays.get(t).treatment().level(batch.of()).equals(of)) {
                    units.computeIfAbsent(trial.place().unit(level, trays.get(t).stand()), u -> new ArrayList<>())
                            .add(t);
                }
            }
            var order = walk(List.copyOf(units.values()), trays, random);
            refuseTooMany(of, order.size());
            int[] number = deal(order, trays, random);
            for (int u = 0; u < number.length; u++) {
                for (int t : order.get(u)) {
                    drawn.set(t, with(drawn.get(t), number[u] + 1));
                }
            }
        }
        return List.copyOf(drawn);
    }

    private Tray with(Tray tray, int number) {
        var batches = new LinkedHashMap<>(tray.batches());
        batches.put(batch.name(), number);
        return new Tray(tray.code(), tray.stand(), batches, tray.treatment());
    }

    private void refuseTooMany(String of, int units) {
        if (units > 0 && units < batch.count()) {
            throw new DoesNotFitException(List.of(batch.of() + " " + of + " goes to " + units + " × " + level
                    + ", which is fewer than its " + batch.count() + " × " + batch.name()
                    + ": some would serve none. Make at most " + units + " for each level of " + batch.of() + "."));
        }
    }

    /** The units in the order of a walk through the place that takes what lies in each unit in random order. */
    private List<List<Integer>> walk(List<List<Integer>> units, List<Tray> trays, UniformRandomProvider random) {
        var order = new ArrayList<>(units);
        Generator.shuffle(order, random);
        var outside = outside().stream()
                .filter(l -> trial.place()
                        .levels()
                        .get(trial.place().names().indexOf(l))
                        .across()
                        .isEmpty())
                .toList();
        return gathered(order, outside, trays);
    }

    private List<List<Integer>> gathered(List<List<Integer>> units, List<String> levels, List<Tray> trays) {
        if (levels.isEmpty()) {
            return units;
        }
        Map<String, List<List<Integer>>> parts = new LinkedHashMap<>();
        units.forEach(u -> parts.computeIfAbsent(
                        trial.place().unit(levels.get(0), trays.get(u.get(0)).stand()), p -> new ArrayList<>())
                .add(u));
        var rest = levels.subList(1, levels.size());
        return parts.values().stream()
                .flatMap(p -> gathered(p, rest, trays).stream())
                .toList();
    }

    /** The place levels whose units hold several of the units that are dealt. */
    private List<String> outside() {
        return trial.place().names().stream()
                .filter(l -> trial.place().contains(l, level) && !trial.moves(l))
                .toList();
    }

    /** The number of the batch, from 0, of each unit. */
    private int[] deal(List<List<Integer>> units, List<Tray> trays, UniformRandomProvider random) {
        int[] names = IntStream.range(0, batch.count()).toArray();
        Generator.shuffle(names, random);
        int[] number = IntStream.range(0, units.size())
                .map(u -> names[u % names.length])
                .toArray();
        var evenness = new ArrayList<Evenness>();
        outside()
                .forEach(l -> evenness.add(new Evenness(
                        by(units, u -> trial.place().unit(l, trays.get(u.get(0)).stand())), number, PLACE_WEIGHT)));
        for (String factor : trial.factorNames()) {
            evenness.add(new Evenness(by(units, u -> contents(u, trays, List.of(factor))), number, 1));
        }
        evenness.add(new Evenness(by(units, u -> contents(u, trays, trial.factorNames())), number, 1));
        evenness.add(new Evenness(by(units, u -> earlier(trays.get(u.get(0)))), number, 1));
        swap(number, evenness, random);
        return number;
    }

    private static Grouping by(List<List<Integer>> units, Function<List<Integer>, Object> what) {
        return Grouping.by(units.stream().map(what).toList());
    }

    private static List<String> contents(List<Integer> unit, List<Tray> trays, List<String> factors) {
        return unit.stream()
                .map(t -> trays.get(t).treatment().only(factors).describe())
                .sorted()
                .toList();
    }

    /** The batches of other kinds that a tray has been given already, each told by its level and number. */
    private List<String> earlier(Tray tray) {
        return trial.batches().stream()
                .filter(b -> tray.batches().containsKey(b.name()))
                .map(b -> tray.treatment().level(b.of()) + "\n" + tray.batches().get(b.name()))
                .toList();
    }

    /** Swaps the batches of two units wherever that makes nothing less even; stops when nothing can be more even. */
    private void swap(int[] number, List<Evenness> evenness, UniformRandomProvider random) {
        long tries = Math.max(FEWEST_SWAPS, Math.min(MOST_SWAPS, 50L * number.length * number.length));
        for (long i = 0; i < tries && evenness.stream().anyMatch(e -> !e.best()); i++) {
            int a = random.nextInt(number.length);
            int b = random.nextInt(number.length);
            if (number[a] != number[b]
                    && evenness.stream().mapToLong(e -> e.change(a, b)).sum() <= 0) {
                evenness.forEach(e -> e.swap(a, b));
                int kept = number[a];
                number[a] = number[b];
                number[b] = kept;
            }
        }
    }

    /** How evenly batches come in the groups of one kind: the sum of squared numbers, smaller being more even. */
    private static final class Evenness {
        private final int[] group;
        private final int[] number;
        private final int[][] counts;
        private final long weight;
        private final long least;
        private long squares;

        Evenness(Grouping groups, int[] number, long weight) {
            this.group = groups.of();
            this.number = number;
            this.weight = weight;
            int batches = 1 + IntStream.of(number).max().orElse(0);
            this.counts = new int[groups.groups()][batches];
            for (int u = 0; u < group.length; u++) {
                counts[group[u]][number[u]]++;
            }
            for (int[] own : counts) {
                squares += IntStream.of(own).mapToLong(n -> (long) n * n).sum();
            }
            this.least = IntStream.range(0, counts.length)
                    .mapToLong(g ->
                            EvenNumbers.leastSquares(IntStream.of(counts[g]).sum(), batches))
                    .sum();
        }

        boolean best() {
            return squares == least;
        }

        /** By how much a swap would raise the weighted sum; units of one group change nothing. */
        long change(int a, int b) {
            if (group[a] == group[b]) {
                return 0;
            }
            int[] at = counts[group[a]];
            int[] other = counts[group[b]];
            return weight * 2 * ((long) at[number[b]] - at[number[a]] + other[number[a]] - other[number[b]] + 2);
        }

        /** Counts a swap that the owner of the numbers makes after it. */
        void swap(int a, int b) {
            squares += change(a, b) / weight;
            if (group[a] != group[b]) {
                counts[group[a]][number[a]]--;
                counts[group[a]][number[b]]++;
                counts[group[b]][number[b]]--;
                counts[group[b]][number[a]]++;
            }
        }
    }
}
