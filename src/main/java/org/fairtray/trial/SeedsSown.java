package org.fairtray.trial;

import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * How many seeds the weighed amount of a tray holds: grams divided by the weight of one seed, times the true seeds in what
 * is sown as one. A frame gets its share by area, the seeds taken to lie evenly.
 *
 * @param grams grams in a tray
 * @param perTray seeds in a tray
 * @param perFrame seeds in a counting frame; empty where its size is not known
 * @param planned the plan's seeds per frame
 */
public record SeedsSown(double grams, double perTray, OptionalDouble perFrame, int planned) {

    /** Empty where the plan doesn't say grams per tray and thousand-seed weight. */
    public static Optional<SeedsSown> of(Trial trial) {
        var weight = trial.crop().map(Crop::thousandSeedWeight).orElse(OptionalDouble.empty());
        if (trial.gramsPerTray().isEmpty() || weight.isEmpty()) {
            return Optional.empty();
        }
        double grams = trial.gramsPerTray().getAsDouble();
        int inOne = trial.crop().orElseThrow().seedsPerUnit().orElse(1);
        double perTray = grams / weight.getAsDouble() * 1000 * inOne;
        var counting = trial.counting();
        return Optional.of(new SeedsSown(grams, perTray, perFrame(counting, perTray), counting.seedsPerFrame()));
    }

    private static OptionalDouble perFrame(Counting counting, double perTray) {
        if (counting.frame().isPresent()) {
            double whole = counting.tray().orElseThrow().size();
            return OptionalDouble.of(perTray * counting.frame().get().size() / whole);
        }
        return counting.framesPerTray() == 1 ? OptionalDouble.of(perTray) : OptionalDouble.empty();
    }

    /** In words, with what such a number is worth. */
    public String sentence() {
        String tray = "%s g a tray is about %s seeds".formatted(plain(grams), rounded(perTray));
        return perFrame.isEmpty()
                ? tray + "."
                : tray + ", and about " + rounded(perFrame.getAsDouble())
                        + " in what is counted; the plan says " + rounded(planned)
                        + ". That is an estimate unless the seeds are counted: then write them as sown in readings.csv.";
    }

    private static String plain(double number) {
        return number == Math.rint(number) ? rounded(number) : Double.toString(number);
    }

    private static String rounded(double number) {
        return String.format(Locale.ROOT, "%.0f", number);
    }
}
