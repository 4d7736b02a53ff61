package org.fairtray.sizing.simulation;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.design.Generator;
import org.fairtray.design.Structure;
import org.fairtray.sizing.Normal;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.logistic.LogisticFit;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Place;

/**
 * Invented counts of the trays of a layout, one set for each number from 0 on. A number gives the same chance again
 * whatever else is asked: each tray has its uniform number and each place unit its normal one, drawn in the order of the
 * layout from a generator for each level. So layouts, rates and guesses that are compared meet the same luck as far as they
 * have the same trays and units. A workspace, for one thread.
 */
final class NumberedTrials {
    private final long first;
    private final int seeds;
    private final BetaBinomialCounts counts;
    private final List<Level> levels = new ArrayList<>();
    private final double[] logOdds;

    /** The units of one place level, or the trays, and how far they differ. */
    private record Level(Grouping units, double sd) {}

    /**
     * The trials of a layout.
     *
     * @param expected how trays and units differ; what it leaves out doesn't differ
     * @param seed of all numbers
     */
    NumberedTrials(Structure structure, Expectations expected, long seed) {
        var trial = structure.trial();
        this.first = Generator.of(seed).nextLong();
        this.seeds = Math.multiplyExact(
                trial.counting().framesPerTray(), trial.counting().seedsPerFrame());
        this.counts = new BetaBinomialCounts(seeds, expected.trayCorrelation().orElse(0));
        this.logOdds = new double[structure.trays().size()];
        levels.add(new Level(structure.units(Place.TRAY), expected.placeSd().getOrDefault(Place.TRAY, 0.0)));
        for (String name : trial.place().names()) {
            double sd = trial.moves(name) ? 0 : expected.placeSd().getOrDefault(name, 0.0);
            levels.add(new Level(structure.units(name), sd));
        }
    }

    /**
     * The counts of one trial.
     *
     * @param number from 0
     * @param rates one for each tray, in [0, 1]
     */
    List<Count> draw(long number, double[] rates) {
        var generator = Generator.of(first + number);
        var uniforms = Generator.of(generator.nextLong());
        for (int i = 0; i < logOdds.length; i++) {
            logOdds[i] = Math.log(rates[i] / (1 - rates[i]));
        }
        for (var level : levels) {
            move(level, generator.nextLong());
        }
        var drawn = new ArrayList<Count>(logOdds.length);
        for (double odds : logOdds) {
            drawn.add(new Count(counts.at(LogisticFit.rate(odds), uniforms.nextDouble()), seeds));
        }
        return drawn;
    }

    private void move(Level level, long seed) {
        if (level.sd > 0) {
            UniformRandomProvider random = Generator.of(seed);
            var effects = new double[level.units.groups()];
            for (int u = 0; u < effects.length; u++) {
                effects[u] = level.sd * Normal.draw(random);
            }
            int[] units = level.units.of();
            for (int i = 0; i < units.length; i++) {
                logOdds[i] += effects[units[i]];
            }
        }
    }
}
