package org.fairtray.sizing;

import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.statistics.TwoProportions;
import org.fairtray.statistics.comparisons.PlannedInterval;

/**
 * What is to be expected of the test of one term, by formulae. What isn't available is null.
 *
 * @param term the factor or interaction
 * @param factors of the term
 * @param stratum in which it is tested
 * @param df degrees of freedom of the term
 * @param denominatorDf of the error it is held against; need not be whole where a layout is repeated in part
 * @param nonCentrality λ, with the difference that is worthwhile
 * @param power the chance that the test finds that difference
 * @param smallestChange the smallest difference that is found with the power wanted
 * @param halfWidth half the interval of a level's difference from the control, on average, as a proportion
 * @param noChange the chance of the verdict "no worthwhile change" where the factor does nothing
 * @param twoProportions the power if a level's seeds were two simple samples of so many fewer as trays are alike; for two
 *     levels given to single trays
 */
public record ClosedForm(
        String term,
        List<String> factors,
        String stratum,
        int df,
        double denominatorDf,
        Double nonCentrality,
        Double power,
        Double smallestChange,
        Double halfWidth,
        Double noChange,
        Double twoProportions) {

    /** What is to be expected of a term with each option, in their order; with rates that are not possible, nothing. */
    public static List<ClosedForm> of(StratumTest test, Assumptions assumptions, List<Option> options) {
        if (!assumptions.possible()) {
            return options.stream().map(o -> unknown(test, o)).toList();
        }
        var alike = new HashMap<Double, Alike>();
        return options.stream()
                .map(o -> alike.computeIfAbsent(o.times(), t -> Alike.of(new StrataPower(test, assumptions, o)))
                        .with(o))
                .toList();
    }

    /** What options share that are repeated as often. */
    private record Alike(StrataPower power, Optional<PlannedInterval> interval) {
        static Alike of(StrataPower power) {
            return new Alike(power, power.interval());
        }

        ClosedForm with(Option option) {
            var other = power.with(option);
            return known(other, interval.map(i -> i.withError(other.standardError())));
        }
    }

    private static ClosedForm unknown(StratumTest test, Option option) {
        return new ClosedForm(
                test.term().name(),
                test.term().factors(),
                test.stratum(),
                test.df(),
                test.errorDf(option),
                null,
                null,
                null,
                null,
                null,
                null);
    }

    private static ClosedForm known(StrataPower power, Optional<PlannedInterval> interval) {
        var test = power.test();
        double worthwhile = power.assumptions().worthwhile();
        return new ClosedForm(
                test.term().name(),
                test.term().factors(),
                test.stratum(),
                test.df(),
                test.errorDf(power.option()),
                power.nonCentrality(worthwhile),
                power.power(worthwhile),
                orNull(power.smallest()),
                interval.map(PlannedInterval::halfWidth).orElse(null),
                interval.map(i -> i.chanceInside(worthwhile)).orElse(null),
                twoProportions(test, power.assumptions(), power.option()));
    }

    private static Double orNull(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }

    private static Double twoProportions(StratumTest test, Assumptions assumptions, Option option) {
        if (!test.term().isMain() || test.comparisons() != 1 || !test.onTrays()) {
            return null;
        }
        double seeds = option.times() * test.unitsPerLevel() * option.seeds();
        double binomial = assumptions.controlRate() * (1 - assumptions.controlRate());
        double places = test.traysInOne().keySet().stream()
                .mapToDouble(l -> assumptions.placeSd(l) * assumptions.placeSd(l))
                .sum();
        double designEffect =
                1 + (option.seeds() - 1) * assumptions.trayCorrelation() + option.seeds() * places * binomial;
        return new TwoProportions(
                        assumptions.controlRate(),
                        assumptions.raisedRate(),
                        assumptions.choices().alpha())
                .power(seeds / designEffect);
    }
}
