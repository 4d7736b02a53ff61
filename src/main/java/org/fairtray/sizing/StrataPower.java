package org.fairtray.sizing;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.FPower;
import org.fairtray.statistics.comparisons.PlannedInterval;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Scale;

/**
 * What the analysis of variance would see of one term, in closed form: its raised trays ({@link StratumTest}) have a rate
 * that is higher by a difference, all others the control's.
 *
 * <p>The F of the stratum has non-centrality λ = spread × (change on the scale)² / ξ. A tray's value varies by
 * g'² p(1 − p) (1 + (m − 1)ρ) / m, with g' the slope of the scale and m the seeds counted: binomial variance times the design
 * effect. A unit of a place level with standard deviation s on the log-odds moves it by s g' p(1 − p). ξ adds up the tray's
 * variance and, for every place level whose units lie in one unit of the stratum, the trays in a unit times its variance;
 * both are averages over raised and other trays. On the angular scale the first is (1 + (m − 1)ρ) / 4m at any rate.
 *
 * <p>Repeated so many times, a layout has so many times the spread and the dimensions of the stratum, and fits no more.
 *
 * <p>Approximate: values are taken to be normal, with one variance.
 *
 * <p>Sources: Cochran and Cox (1957), Experimental Designs, section 2.2 (the number of replications), and Kish (1965),
 * Survey Sampling, section 5.4 (the design effect), both from memory; Bailey (2008), Design of Comparative Experiments,
 * chapter 10 (expected mean squares of strata).
 */
public final class StrataPower {
    private static final int HALVINGS = 60;

    /** A rate of 1 has no slope on two of the scales. */
    private static final double LARGEST_RATE = 1 - 1e-9;

    private final StratumTest test;
    private final Assumptions assumptions;
    private final Option option;
    private final Optional<Tested> tested;

    /** What hangs on the degrees of freedom alone: the F, and the λ with which it has the power wanted. */
    private record Tested(FPower f, double wanted) {}

    /**
     * A term's power.
     *
     * @param assumptions with a control rate in (0, 1)
     */
    public StrataPower(StratumTest test, Assumptions assumptions, Option option) {
        this(test, assumptions, option, tested(test, assumptions, option));
    }

    private StrataPower(StratumTest test, Assumptions assumptions, Option option, Optional<Tested> tested) {
        if (!(assumptions.controlRate() > 0 && assumptions.controlRate() < 1)) {
            throw new IllegalArgumentException(
                    "control rate " + assumptions.controlRate() + ": expected between 0 and 1");
        }
        this.test = test;
        this.assumptions = assumptions;
        this.option = option;
        this.tested = tested;
    }

    private static Optional<Tested> tested(StratumTest test, Assumptions assumptions, Option option) {
        double errorDf = test.errorDf(option);
        if (errorDf <= 0) {
            return Optional.empty();
        }
        var f = new FPower(test.df(), errorDf, assumptions.choices().alpha());
        return Optional.of(new Tested(f, f.nonCentrality(assumptions.power())));
    }

    /**
     * The power of a factor in a plan's own layout, nothing guessed of how trays and places differ; empty where no stratum
     * can test it or the plan expects no rate of the control, or one of 0 or 1.
     */
    public static Optional<StrataPower> of(Structure structure, Factor factor) {
        var trial = structure.trial();
        var rate = trial.expectations().controlRate();
        if (rate.isEmpty() || rate.getAsDouble() <= 0 || rate.getAsDouble() >= 1) {
            return Optional.empty();
        }
        return StratumTest.of(structure, new Term(List.of(factor.name())))
                .map(t -> new StrataPower(t, Assumptions.plannedAlone(trial), Option.of(trial.counting())));
    }

    /** What is repeated and counted. */
    Option option() {
        return option;
    }

    /** What is taken for granted. */
    public Assumptions assumptions() {
        return assumptions;
    }

    /** The test. */
    public StratumTest test() {
        return test;
    }

    /** The same test with something else repeated or counted; repeated as often, it takes little work. */
    public StrataPower with(Option other) {
        return other.times() == option.times()
                ? new StrataPower(test, assumptions, other, tested)
                : new StrataPower(test, assumptions, other);
    }

    /**
     * The chance that the term's test finds a difference of the rate; 0 where there is nothing to test against.
     *
     * @param difference a proportion above 0; a rate above 1 counts as 1
     */
    public double power(double difference) {
        return tested.map(t -> t.f.at(nonCentrality(difference))).orElse(0.0);
    }

    /** The smallest difference that is found with the power wanted, in (0, 1); empty where not even a rate of 1 is. */
    public OptionalDouble smallest() {
        double low = 0;
        double high = 1 - assumptions.controlRate();
        if (tested.isEmpty() || nonCentrality(high) < tested.get().wanted) {
            return OptionalDouble.empty();
        }
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (middle > 0 && nonCentrality(middle) >= tested.get().wanted) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(high);
    }

    /**
     * The fewest units for each level with which a difference is found with a power, the layout being repeated.
     *
     * @param mostTimes as many times the present number are tried
     */
    public OptionalInt unitsNeeded(double difference, double power, int mostTimes) {
        int low = 0;
        int high = (int) Math.ceil(mostTimes * test.unitsPerLevel());
        if (powerWith(high, difference) < power) {
            return OptionalInt.empty();
        }
        while (high - low > 1) {
            int middle = (low + high) / 2;
            if (powerWith(middle, difference) >= power) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalInt.of(high);
    }

    private double powerWith(int units, double difference) {
        return with(option.repeated(units / test.unitsPerLevel())).power(difference);
    }

    /**
     * The fewest seeds in a frame with which a difference is found with a power.
     *
     * @param most as many are tried
     */
    public OptionalInt seedsNeeded(double difference, double power, int most) {
        int low = 0;
        int high = most;
        if (with(option.withSeeds(high)).power(difference) < power) {
            return OptionalInt.empty();
        }
        while (high - low > 1) {
            int middle = (low + high) / 2;
            if (with(option.withSeeds(middle)).power(difference) >= power) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalInt.of(high);
    }

    /** The interval of a factor's differences that is to be expected where it does nothing; empty for interactions. */
    public Optional<PlannedInterval> interval() {
        return !test.term().isMain() || tested.isEmpty()
                ? Optional.empty()
                : Optional.of(PlannedInterval.of(
                        test.comparisons(),
                        test.errorDf(option),
                        standardError(),
                        assumptions.choices().alpha()));
    }

    /** The true standard error of the difference of a factor's level from the control's, where it does nothing. */
    double standardError() {
        double rate = assumptions.controlRate();
        double variance = errorVariance(rate) * test.contrast() / option.times();
        return Math.sqrt(variance) / scale().slope(rate, option.seeds());
    }

    /** λ for a difference of the rate. */
    public double nonCentrality(double difference) {
        double rate = Math.min(LARGEST_RATE, assumptions.controlRate() + difference);
        double change = onScale(rate) - onScale(assumptions.controlRate());
        return option.times() * test.spread() * change * change / errorVariance(rate);
    }

    private Scale scale() {
        return assumptions.choices().scale();
    }

    private double onScale(double rate) {
        return scale().of(rate * option.seeds(), option.seeds());
    }

    /** ξ, for a tray of the stratum. */
    private double errorVariance(double raisedRate) {
        return test.raised() * errorVarianceAt(raisedRate)
                + (1 - test.raised()) * errorVarianceAt(assumptions.controlRate());
    }

    private double errorVarianceAt(double rate) {
        double seeds = option.seeds();
        double binomial = rate * (1 - rate);
        double slope = scale().slope(rate, seeds);
        double variance = slope * slope * binomial * (1 + (seeds - 1) * assumptions.trayCorrelation()) / seeds;
        for (var level : test.traysInOne().entrySet()) {
            double sd = assumptions.placeSd(level.getKey()) * slope * binomial;
            variance += level.getValue() * sd * sd;
        }
        return variance;
    }
}
