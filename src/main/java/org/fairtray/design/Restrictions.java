package org.fairtray.design;

import java.util.List;
import java.util.Optional;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Whether trays as they stand keep what a plan asks of a layout besides its structure. */
public final class Restrictions {
    private Restrictions() {}

    /** The restrictions of the plan that these trays keep. */
    public static List<Restriction> kept(Trial trial, List<Tray> trays) {
        return trial.restrictions().stream()
                .filter(r -> amiss(trial, trays, r).isEmpty())
                .toList();
    }

    /** How a restriction is broken, in words, within a sentence; empty where it is kept. */
    public static Optional<String> amiss(Trial trial, List<Tray> trays, Restriction restriction) {
        return new Bench(trial, trays, List.of(restriction)).amiss(restriction);
    }

    /** How much these trays break a restriction: pairs side by side, or steps from an even share; 0 where it is kept. */
    public static long breaches(Trial trial, List<Tray> trays, Restriction restriction) {
        return new Bench(trial, trays, List.of(restriction)).breaches();
    }
}
