package org.fairtray.trial;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;

/**
 * Which tray stands where and gets what.
 *
 * @param trays in the order of the layout's file; codes and stands are unique
 */
public record Layout(List<Tray> trays) {

    /** @throws IllegalArgumentException if two trays share a code or a stand */
    public Layout {
        trays = List.copyOf(trays);
        var codes = new HashSet<String>();
        var stands = new HashSet<Stand>();
        for (var tray : trays) {
            if (!codes.add(tray.code()) || !stands.add(tray.stand())) {
                throw new IllegalArgumentException(
                        "tray " + tray.code() + " at " + tray.stand().at() + ": code or stand is taken already");
            }
        }
    }

    /** Trays in walking order of where they stand: outermost place level first. */
    public static List<Tray> walked(List<Tray> trays) {
        return trays.stream()
                .sorted(Comparator.comparing(t -> t.stand().at(), Stand.WALK))
                .toList();
    }
}
