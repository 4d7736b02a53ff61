package org.fairtray.sizing.simulation;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.ObjIntConsumer;
import org.fairtray.findings.Words;
import org.fairtray.sizing.ClosedForm;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;

/** The sizes of a trial with their powers simulated, and why these differ from the formulae where they do. */
public final class SimulatedSizing {
    /** Powers that differ by less are the same for planning. */
    private static final double NOTABLE = 0.05;

    /** Fewer degrees of freedom for error than this are few for a likelihood ratio. */
    private static final double FEW_DF = 20;

    /** Terms times trays times trials that take some ten seconds on two cores. */
    private static final int WORK = 150_000;

    private static final int FEWEST = 100;
    private static final int MOST = 1000;

    private SimulatedSizing() {}

    /** How many trials of each term to simulate at most where no one says: 1000, fewer of large trials, in whole rounds. */
    public static int usual(SizedLayout sized) {
        int trays = sized.structure().trays().size();
        int terms = sized.structure().terms().size();
        return Math.max(FEWEST, Math.min(MOST, WORK / trays / terms / FEWEST * FEWEST));
    }

    /**
     * Simulates every term by every judge. Where nothing can be simulated, or nothing was before a stop, formulae remain.
     *
     * @param precision when to stop
     * @param seed of all chance; the same gives the same whatever the number of threads
     * @param threads 1 or more
     * @param progress is told the name of a term and how many of its trials are done
     * @param stopped once it says true, what was found until then counts
     */
    public static Sizing of(
            SizedLayout sized,
            Precision precision,
            long seed,
            int threads,
            ObjIntConsumer<String> progress,
            BooleanSupplier stopped) {
        var sizing = sized.sizing();
        if (sized.tests().isEmpty() || !sized.assumptions().possible()) {
            return sizing;
        }
        var structure = sized.structure();
        var powers = PowerSimulation.of(structure, structure.trial().expectations(), seed)
                .run(structure.terms(), EnumSet.allOf(Judge.class), precision, threads, progress, stopped);
        int most = powers.stream().mapToInt(SimulatedPower::simulations).max().orElse(0);
        if (most == 0) {
            return sizing;
        }
        return sizing.simulated(
                powers.stream()
                        .map(p -> new Sizing.TermPower(
                                p.term(),
                                p.by().label(),
                                p.power().orElse(null),
                                p.low().orElse(null),
                                p.high().orElse(null)))
                        .toList(),
                most,
                remarks(sized, sizing, powers));
    }

    private static List<String> remarks(SizedLayout sized, Sizing sizing, List<SimulatedPower> powers) {
        var remarks = new ArrayList<String>();
        var liberal = new ArrayList<String>();
        for (ClosedForm closed : sizing.closedForm()) {
            Double anova = power(powers, closed.term(), Judge.ANOVA);
            if (anova == null) {
                continue;
            }
            if (Math.abs(anova - closed.power()) > NOTABLE) {
                remarks.add(apart(sized, closed, anova));
            }
            Double logistic = power(powers, closed.term(), Judge.LOGISTIC);
            if (logistic - anova > NOTABLE) {
                liberal.add(closed.term());
            }
            Double verdict = power(powers, closed.term(), Judge.VERDICT);
            if (Math.abs(verdict - anova) > NOTABLE) {
                remarks.add(byVerdict(closed, verdict, anova));
            }
        }
        if (!liberal.isEmpty()) {
            remarks.add("The likelihood ratio of the mixed fit finds " + String.join(", ", liberal)
                    + " more often than the analysis of variance does: it takes few trays or stacks for many. So it also finds"
                    + " what isn't there more often than it says, and verdicts don't rest on it.");
        }
        return remarks;
    }

    private static Double power(List<SimulatedPower> powers, String term, Judge judge) {
        return powers.stream()
                .filter(p -> p.term().equals(term) && p.by() == judge)
                .findFirst()
                .flatMap(SimulatedPower::power)
                .orElse(null);
    }

    private static String apart(SizedLayout sized, ClosedForm closed, double anova) {
        String why = sized.expectsFew()
                ? "so few are expected of a kind in a tray that their values are far from normal."
                : closed.denominatorDf() < FEW_DF
                        ? "units are few, and at two rates they don't vary alike, which formulae take for granted."
                        : "formulae take values for normal, with one variance.";
        return closed.term() + ": formulae say " + Words.percent(closed.power()) + ", the analysis of invented trials "
                + Words.percent(anova) + ". The reason: " + why + " Go by the invented trials.";
    }

    private static String byVerdict(ClosedForm closed, double verdict, double anova) {
        return closed.term() + ": the verdict is \"changed\" in " + Words.percent(verdict)
                + (verdict < anova
                        ? ". It needs the test on the odds and the analysis of variance both, and counts on no luck with trays"
                                + " that differ less than seeds would."
                        : ", for it goes by the odds, and there this change is clearer.");
    }
}
