package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * What a trial of this size can see, what it would take to see more, and what that hangs on. What isn't available is null.
 *
 * @param trial its title
 * @param outcome the first one
 * @param trays of the layout
 * @param replicates trays of each treatment; null where they are not equally many
 * @param seedsPerTray counted in a tray
 * @param terms the chance that each term's test finds what is worthwhile
 * @param simulations how many invented trials each of these rests on; 0 where they come from the closed form
 * @param smallestChange of each factor, that is seen with the power wanted
 * @param advice what to do next, in plain words
 * @param closedForm the same and more, by formulae
 * @param needed what each factor would need
 * @param seeds the powers with other numbers of seeds in a frame
 * @param sensitivity the powers if trays and places differ more or less than assumed
 * @param assumptions what is taken for granted, with sources
 * @param wanted the power wanted
 * @param alpha the error rate of a test
 * @param notes what to bear in mind, a sentence or two each
 * @param spending other sizes and what they cost; null where it wasn't looked at
 * @param earlier what was learned from an earlier trial; null where none was named
 */
public record Sizing(
        String trial,
        String outcome,
        int trays,
        Integer replicates,
        int seedsPerTray,
        List<TermPower> terms,
        int simulations,
        List<SmallestChange> smallestChange,
        String advice,
        List<ClosedForm> closedForm,
        List<Needed> needed,
        List<Seeds> seeds,
        List<Sensitivity> sensitivity,
        List<Assumption> assumptions,
        double wanted,
        double alpha,
        List<String> notes,
        Spending spending,
        Earlier earlier) {

    public Sizing {
        terms = List.copyOf(terms);
        smallestChange = List.copyOf(smallestChange);
        closedForm = List.copyOf(closedForm);
        needed = List.copyOf(needed);
        seeds = List.copyOf(seeds);
        sensitivity = List.copyOf(sensitivity);
        assumptions = List.copyOf(assumptions);
        notes = List.copyOf(notes);
    }

    /** The test of the analysis of variance, as {@link TermPower#by} names it. */
    public static final String ANOVA = "anova";

    /**
     * The power of a term by one way of judging.
     *
     * @param by {@code anova}: F of the strata analysis; {@code logistic}: likelihood ratio of the mixed fit;
     *     {@code verdict}: what {@code analyse} would decide
     * @param power null where nothing can test the term
     * @param low the end of its interval, where it was simulated
     * @param high the other
     */
    public record TermPower(String term, String by, Double power, Double low, Double high) {}

    /**
     * The smallest change that is found.
     *
     * @param difference of the rate; null where not even a rise to 100 % is, or nothing can test the factor
     * @param power with which
     */
    public record SmallestChange(String factor, Double difference, double power) {}

    /**
     * What a factor needs to be found with the power wanted, the layout being repeated.
     *
     * @param unit what gets its levels
     * @param unitsPerLevel that a level has now, on average
     * @param neededPerLevel that it needs; null where 50 times as many would not do
     * @param units in all that it needs
     * @param trays in all that it needs, in full sets
     * @param fits whether the plan's place holds them
     */
    public record Needed(
            String factor,
            String unit,
            double unitsPerLevel,
            Integer neededPerLevel,
            Integer units,
            Integer trays,
            Boolean fits) {}

    /** The power and the smallest change of a term; both null where nothing can test it. */
    public record Chance(String term, Double power, Double smallestChange) {}

    /** The chances with another number of seeds counted. */
    public record Seeds(int seedsPerFrame, int seedsPerTray, List<Chance> terms) {}

    /** The chances if trays and places differed so much. */
    public record Sensitivity(double trayCorrelation, Map<String, Double> placeSd, List<Chance> terms) {}

    /**
     * What was taken from an earlier trial.
     *
     * @param trial its title
     * @param outcome the count that was looked at
     * @param figures that replace what the plan expects
     * @param assurances of the terms
     */
    public record Earlier(String trial, String outcome, List<Figure> figures, List<Assurance> assurances) {
        public Earlier {
            figures = List.copyOf(figures);
            assurances = List.copyOf(assurances);
        }
    }

    /** A figure and where it lies with 95 %. */
    public record Figure(String key, double value, double low, double high) {}

    /**
     * The chance that a term's test finds what is worthwhile, averaged over how unsure the figures are.
     *
     * @param power with the best guesses, by the closed form
     */
    public record Assurance(String term, double power, double assurance) {}

    /** The same with what other sizes cost. */
    public Sizing beside(Spending others) {
        return with(terms, simulations, notes, others, earlier);
    }

    /** The same with what was learned from an earlier trial. */
    public Sizing after(Earlier learned) {
        return with(terms, simulations, notes, spending, learned);
    }

    /** The same with simulated powers, and what is to be said of them. */
    public Sizing simulated(List<TermPower> powers, int trials, List<String> remarks) {
        var all = new ArrayList<>(notes);
        all.addAll(remarks);
        return with(powers, trials, all, spending, earlier);
    }

    private Sizing with(List<TermPower> powers, int trials, List<String> remarks, Spending others, Earlier learned) {
        return new Sizing(
                trial,
                outcome,
                trays,
                replicates,
                seedsPerTray,
                powers,
                trials,
                smallestChange,
                advice,
                closedForm,
                needed,
                seeds,
                sensitivity,
                assumptions,
                wanted,
                alpha,
                remarks,
                others,
                learned);
    }
}
