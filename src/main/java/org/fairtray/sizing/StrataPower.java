package org.fairtray.sizing;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.FPower;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;

/**
 * What the analysis of variance of the angles asin(√(y/m)) would see of one factor: its last level but the control's lies
 * higher by a difference, all its other levels and all other factors do nothing.
 *
 * <p>The F of the factor's stratum has non-centrality
 * λ = efficiency × Σ (angle of the tray − mean angle)² / ξ. A tray's angle varies by (1 + (m − 1)ρ) / 4m, the design
 * effect times the binomial variance; a unit of a place level with standard deviation s on the log-odds moves it by
 * s √(p(1 − p)) / 2. ξ adds up the tray's variance and, for every place level whose units lie in one unit of the stratum,
 * the trays in a unit times its variance.
 *
 * <p>Approximate: angles are taken to be normal with a variance that the rate doesn't change.
 *
 * <p>Sources: Cochran and Cox (1957), Experimental Designs, section 2.2 (the number of replications), and Kish (1965),
 * Survey Sampling, section 5.4 (the design effect), both from memory; Bailey (2008), Design of Comparative Experiments,
 * chapter 10 (expected mean squares of strata).
 */
public final class StrataPower {
    private static final int HALVINGS = 60;

    private final Structure structure;
    private final Factor factor;
    private final double controlRate;
    private final int stratum;
    private final int df;
    private final double efficiency;

    private StrataPower(Structure structure, Factor factor, double controlRate, int stratum) {
        this.structure = structure;
        this.factor = factor;
        this.controlRate = controlRate;
        this.stratum = stratum;
        var part = structure.parts(main(factor)).stream()
                .filter(p -> p.stratum() == stratum)
                .findFirst()
                .orElseThrow();
        this.df = part.df();
        this.efficiency = part.efficiency();
    }

    /** The power of a factor; empty where no stratum can test it or the plan expects no rate of the control. */
    public static Optional<StrataPower> of(Structure structure, Factor factor) {
        var rate = structure.trial().expectations().controlRate();
        return rate.isEmpty()
                ? Optional.empty()
                : structure.testedIn(main(factor)).map(s -> new StrataPower(structure, factor, rate.getAsDouble(), s));
    }

    private static Term main(Factor factor) {
        return new Term(List.of(factor.name()));
    }

    /** The name of the stratum in which the factor is tested. */
    public String stratum() {
        return structure.strataNames().get(stratum);
    }

    /**
     * The chance that the factor's test finds a difference of the rate.
     *
     * @param difference a proportion above 0; a rate above 1 counts as 1
     */
    public double power(double difference) {
        return powerOf(difference, 1);
    }

    /**
     * The same with the whole layout repeated: times as many units, and as many degrees of freedom more.
     *
     * @param times 1 or more; need not be whole
     */
    public double powerOf(double difference, double times) {
        double rest = times * structure.strata().dimension(stratum) - fitted();
        return FPower.of(
                df,
                rest,
                times * nonCentrality(difference),
                structure.trial().choices().alpha());
    }

    private int fitted() {
        return structure.strata().dimension(stratum) - structure.decomposition().residualDf(stratum);
    }

    /** The smallest difference that is found with this power; empty where not even a rate of 1 is. */
    public OptionalDouble smallest(double power) {
        double low = 0;
        double high = 1 - controlRate;
        if (high <= 0 || power(high) < power) {
            return OptionalDouble.empty();
        }
        for (int i = 0; i < HALVINGS; i++) {
            double middle = (low + high) / 2;
            if (middle > 0 && power(middle) >= power) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return OptionalDouble.of(high);
    }

    private double nonCentrality(double difference) {
        double rate = Math.min(1, controlRate + difference);
        double change = angle(rate) - angle(controlRate);
        var raised = raised();
        long trays = structure.trays().stream()
                .filter(t -> raised.equals(t.treatment().level(factor.name())))
                .count();
        int all = structure.trays().size();
        double spread = change * change * trays * (all - trays) / all;
        return efficiency * spread / errorVariance((controlRate + rate) / 2);
    }

    private String raised() {
        var levels = structure.trial().levelsFromControl(factor);
        return levels.get(levels.size() - 1);
    }

    private static double angle(double rate) {
        return Math.asin(Math.sqrt(rate));
    }

    /** ξ, for a tray of the stratum. */
    private double errorVariance(double rate) {
        Expectations expected = structure.trial().expectations();
        Counting counting = structure.trial().counting();
        double seeds = (double) counting.framesPerTray() * counting.seedsPerFrame();
        double alike = expected.trayCorrelation().orElse(0);
        double variance = (1 + (seeds - 1) * alike) / (4 * seeds);
        var stratumUnits = structure.strata().grouping(stratum);
        for (var sd : expected.placeSd().entrySet()) {
            var units = structure.units(sd.getKey());
            if (units.finerThan(stratumUnits)) {
                variance += traysInOne(units) * sd.getValue() * sd.getValue() * rate * (1 - rate) / 4;
            }
        }
        return variance;
    }

    /** Mean number of trays in a unit, as seen from a tray. */
    private static double traysInOne(Grouping units) {
        return IntStream.of(units.sizes()).mapToDouble(n -> (double) n * n).sum() / units.size();
    }

    /** What gets the factor's levels one by one: a place level, a kind of batch, or the tray. */
    public String unit() {
        return batches().map(Batch::name).orElseGet(() -> structure.trial().appliedLevel(factor));
    }

    private Optional<Batch> batches() {
        return structure.batchesOf(factor.name());
    }

    /** How many such units a level of the factor has, on average. */
    public double unitsPerLevel() {
        return batches()
                .map(b -> (double) b.count())
                .orElseGet(() -> (double) structure.units(unit()).groups()
                        / factor.levels().size());
    }

    /** Whether single trays get the factor's levels. */
    public boolean onTrays() {
        return unit().equals(Place.TRAY);
    }
}
