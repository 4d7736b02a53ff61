package org.fairtray.sizing.spending;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.fairtray.sizing.Assumption;
import org.fairtray.sizing.Option;
import org.fairtray.trial.Costs;
import org.fairtray.trial.Trial;

/**
 * What one tray costs by what is counted in it, every counting day's labour included. A quarter of the minutes that the plan
 * gives for a frame are for finding it and writing down, the rest goes with its seeds (a guess, no source). Seed is what is
 * sown in a tray where the plan says so, else what is counted.
 */
final class TrayCosts {
    private static final double HANDLING = 0.25;
    private static final Assumption TRAY =
            new Assumption("costs.tray", 1, false, "an example, no source: a tray with its medium");
    private static final Assumption LABOUR =
            new Assumption("costs.labour_per_hour", 15, false, "an example, no source");
    private static final Assumption MINUTES =
            new Assumption("costs.minutes_per_frame", 2, false, "common practice, no source: time yourself");

    private final double tray;
    private final double wagePerMinute;
    private final double minutes;
    private final double seedPerGram;
    private final OptionalDouble gramsPerSeed;
    private final OptionalDouble gramsPerTray;
    private final int days;
    private final int plannedSeeds;
    private final String currency;
    private final List<Assumption> assumptions = new ArrayList<>();

    /** @param minutesLearned minutes for a frame from an earlier trial, if there is one that tells */
    TrayCosts(Trial trial, OptionalDouble minutesLearned) {
        var costs = trial.costs().orElseGet(Costs::none);
        this.tray = said(costs.tray(), TRAY);
        this.wagePerMinute = said(costs.labourPerHour(), LABOUR) / 60;
        this.minutes = minutesLearned.isPresent()
                ? learned(minutesLearned.getAsDouble())
                : said(costs.minutesPerFrame(), MINUTES);
        this.seedPerGram = costs.seedPerGram().orElse(0);
        this.gramsPerSeed = trial.crop()
                .map(c -> c.thousandSeedWeight())
                .filter(OptionalDouble::isPresent)
                .map(w -> OptionalDouble.of(w.getAsDouble() / 1000))
                .orElse(OptionalDouble.empty());
        this.gramsPerTray = trial.gramsPerTray();
        this.days = trial.counting().days().size();
        this.plannedSeeds = trial.counting().seedsPerFrame();
        this.currency = costs.currency().orElse("money");
    }

    private double said(OptionalDouble said, Assumption usual) {
        assumptions.add(said.isPresent() ? new Assumption(usual.key(), said.getAsDouble(), true, "the plan") : usual);
        return said.orElse(usual.value());
    }

    private double learned(double value) {
        assumptions.add(new Assumption(MINUTES.key(), value, false, "the times of the earlier trial's readings"));
        return value;
    }

    /** What was taken for granted. */
    List<Assumption> assumptions() {
        return List.copyOf(assumptions);
    }

    String currency() {
        return currency;
    }

    /** Minutes to count the frames of a tray once. */
    double minutes(Option option) {
        return option.frames() * minutes * (HANDLING + (1 - HANDLING) * option.seedsPerFrame() / plannedSeeds);
    }

    /** Grams of seed in a tray; empty where nothing says what a seed weighs. */
    OptionalDouble grams(Option option) {
        return gramsPerTray.isPresent() || gramsPerSeed.isEmpty()
                ? gramsPerTray
                : OptionalDouble.of(option.seeds() * gramsPerSeed.getAsDouble());
    }

    /** Money for a tray. */
    double money(Option option) {
        return tray + minutes(option) * days * wagePerMinute + grams(option).orElse(0) * seedPerGram;
    }

    /** Money for one more seed counted in a tray. */
    double moneyPerSeed() {
        double seed = gramsPerTray.isPresent() ? 0 : gramsPerSeed.orElse(0) * seedPerGram;
        return minutes * (1 - HANDLING) / plannedSeeds * days * wagePerMinute + seed;
    }

    /** Money for a tray in which no seed is counted, with so many frames. */
    double moneyWithoutSeeds(Option option) {
        return money(option) - option.seeds() * moneyPerSeed();
    }
}
