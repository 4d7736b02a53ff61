package org.fairtray.bench.planning;

import java.util.List;
import java.util.Optional;
import org.fairtray.files.Problem;
import org.fairtray.trial.Cautions;
import org.fairtray.trial.Place;

/**
 * What can be said of a plan while it is being written. Where it can't be read only its problems are known; where its
 * treatments don't fit into its place, what it asks and where. What isn't available is null.
 *
 * @param problems what is wrong with it, by line
 * @param title of the trial
 * @param place its levels, outermost first
 * @param applied what gets the levels of each factor
 * @param places for trays
 * @param trays that would be sown
 * @param treatments that would be made
 * @param design the textbook's name of such a layout
 * @param sentence the same in a sentence
 * @param power what it would see of each factor
 * @param cost what it would cost, of what the plan gives a price of
 * @param minutesADay to count all trays once
 * @param seedGrams of seed in all trays
 * @param findings what is unfair in any layout of this plan
 * @param notes what to bear in mind
 * @param cautions for those who sow, count and clear away
 */
public record Advice(
        List<Trouble> problems,
        String title,
        List<Level> place,
        List<Applied> applied,
        Integer places,
        Integer trays,
        Integer treatments,
        String design,
        String sentence,
        List<Power> power,
        Cost cost,
        Double minutesADay,
        Double seedGrams,
        List<Finding> findings,
        List<String> notes,
        List<String> cautions) {

    public Advice {
        problems = List.copyOf(problems);
        place = List.copyOf(place);
        applied = List.copyOf(applied);
        power = List.copyOf(power);
        findings = List.copyOf(findings);
        notes = List.copyOf(notes);
        cautions = List.copyOf(cautions);
    }

    /**
     * Something that is wrong.
     *
     * @param line from 1; 0 for the whole file
     * @param nearest the name that was probably meant
     * @param sentence all of it
     */
    public record Trouble(String file, int line, String found, String expected, String nearest, String sentence) {
        /** A problem of a file. */
        public static Trouble of(Problem problem) {
            return new Trouble(
                    problem.file(),
                    problem.line(),
                    problem.found(),
                    problem.expected(),
                    problem.nearest().orElse(null),
                    problem.describe());
        }
    }

    /**
     * A level of the place.
     *
     * @param across the level it is crossed with
     */
    public record Level(String name, int count, String across) {
        /** All levels of a place, outermost first. */
        public static List<Level> of(Place place) {
            return place.levels().stream()
                    .map(l -> new Level(l.name(), l.count(), l.across().orElse(null)))
                    .toList();
        }
    }

    /**
     * What gets the levels of a factor.
     *
     * @param level the place level whose units do, or tray
     * @param unit of the factor's levels
     */
    public record Applied(String factor, String level, String unit, List<String> levels) {
        public Applied {
            levels = List.copyOf(levels);
        }
    }

    /** What a plan costs, by what for. */
    public record Cost(String currency, double total, List<Item> items) {
        public Cost {
            items = List.copyOf(items);
        }

        /** A part of it. */
        public record Item(String what, double amount) {}
    }

    /** Something unfair, and what mends it. */
    public record Finding(String kind, String sentence, String remedy) {}

    /** What can be said of the text of a plan, whatever it is. */
    public static Advice of(String planText) {
        return new Advising(planText).advice();
    }

    static Advice unreadable(List<Trouble> problems) {
        return new Advice(
                problems,
                null,
                List.of(),
                List.of(),
                null,
                null,
                null,
                null,
                null,
                List.of(),
                null,
                null,
                null,
                List.of(),
                List.of(),
                Cautions.ALL);
    }

    static Double finite(Optional<Double> value) {
        return value.filter(Double::isFinite).orElse(null);
    }
}
