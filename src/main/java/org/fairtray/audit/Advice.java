package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/** A page of plain advice on a trial in which every treatment has one tray. Common practice, no source. */
final class Advice {
    private Advice() {}

    static List<String> of(Trial trial, int trays, Optional<Trial> fair) {
        String innermost =
                trial.place().levels().get(trial.place().levels().size() - 1).name();
        var lines = new ArrayList<String>();
        lines.add("One tray of each: what it can tell, and what it can't");
        lines.add(
                "Two trays treated alike never give quite the same. With one tray of each, nothing here shows by how much"
                        + " they would differ, so no difference among these " + trays
                        + " trays can be held against it.");
        lines.add(
                "Each treatment also has a " + innermost
                        + " of its own. Low in a stack is wetter, darker and carries the"
                        + " trays above; the top dries at the rim; the end of a shelf is cooler. Any of these passes for an effect.");
        lines.add(
                "More seeds or more counting frames in the same trays don't help: they tell more about these trays, not"
                        + " about others.");
        lines.add("It is still good for something: to learn to count, to see that nothing goes wrong, and to see which"
                + " treatments are out of the question.");
        lines.add("To make it fair:");
        lines.add("1. Sow every treatment again, in several stacks or on several days. Each of these is a set.");
        lines.add("2. Let chance order the trays anew in every set: lay does it. Not ABC, ABC.");
        lines.add("3. Use one seed lot, weighed dry into equal portions, unless lots are the question.");
        lines.add(
                "4. Soak in one jar for each set, not one jar for all: what goes wrong in a jar goes wrong in all its trays.");
        lines.add("5. Put a tray that isn't counted on top and at the bottom of a stack, if you can spare them.");
        lines.add("6. Give every tray the same water, and count by code, without knowing what a tray got.");
        lines.add("7. Sow a control: what you do now.");
        fair.ifPresent(
                f -> lines.add("The fair version of this trial has " + f.place().trays() + " places ("
                        + f.place().describe() + "), each treatment in every " + holder(f.place()) + "."));
        return lines;
    }

    private static String holder(Place place) {
        return place.levels().get(1).name();
    }
}
