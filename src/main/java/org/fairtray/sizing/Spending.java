package org.fairtray.sizing;

import java.util.List;

/**
 * Trials of other sizes: what they cost and what they find. What isn't available is null.
 *
 * @param term the factor that is hardest to find, whose power is shown
 * @param currency of the money, such as EUR
 * @param money that may be spent; null without a limit
 * @param minutesADay that may be spent on a counting day; null without a limit
 * @param grams of seed that there are; null without a limit
 * @param places for trays that the plan has
 * @param bestSeeds seeds counted in a tray at which a sum of money tells most; null where more never costs anything, or where
 *     seeds of a tray are taken to be no more alike than others
 * @param curves the power by trays, one curve for each number of seeds in a frame
 * @param budget of each curve, the point at which the money is spent; empty without a limit
 * @param choices sensible sizes, cheapest first
 * @param costs what was taken for granted of costs, with sources
 * @param notes what to bear in mind
 */
public record Spending(
        String term,
        String currency,
        Double money,
        Double minutesADay,
        Double grams,
        int places,
        Double bestSeeds,
        List<Curve> curves,
        List<Point> budget,
        List<Choice> choices,
        List<Assumption> costs,
        List<String> notes) {

    public Spending {
        curves = List.copyOf(curves);
        budget = List.copyOf(budget);
        choices = List.copyOf(choices);
        costs = List.copyOf(costs);
        notes = List.copyOf(notes);
    }

    /** Power by trays with one number of seeds. */
    public record Curve(int frames, int seedsPerFrame, List<Point> points) {
        public Curve {
            points = List.copyOf(points);
        }
    }

    /**
     * One size.
     *
     * @param trays need not be whole on the line of the budget
     */
    public record Point(double trays, double power, double cost) {}

    /**
     * A size that makes sense.
     *
     * @param power the least of all factors'
     * @param minutesADay to count it once
     * @param grams of seed; null where the weight of a seed isn't known
     * @param fits whether place, money, minutes and seed allow it
     * @param why in a few words
     */
    public record Choice(
            int trays,
            int frames,
            int seedsPerFrame,
            double power,
            double cost,
            double minutesADay,
            Double grams,
            boolean fits,
            String why) {}
}
