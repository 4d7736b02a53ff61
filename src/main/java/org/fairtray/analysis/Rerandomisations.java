package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import java.util.function.IntConsumer;
import java.util.function.Predicate;
import org.fairtray.analysis.models.AnovaPart;
import org.fairtray.design.Arrangements;
import org.fairtray.design.Exchange;
import org.fairtray.design.Generator;
import org.fairtray.design.Kept;
import org.fairtray.design.Redraw;
import org.fairtray.design.Rerandomisation;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.findings.Rerandomised;
import org.fairtray.statistics.strata.LabelRatio;
import org.fairtray.statistics.strata.VarianceRatio;

/**
 * Tests by running the randomisation again: the share of arrangements that could have come about, in which a term's F is
 * as large as the observed one or larger. All arrangements are tried where they are fewer than {@link Arrangements#MANY};
 * else {@value #DRAWS} are drawn, and the actual one is counted in, p = (1 + count)/(1 + draws).
 *
 * <p>Sources: Edgington and Onghena (2007), Randomization Tests, 4th ed.; Phipson and Smyth (2010), Permutation p-values
 * should never be zero, Statistical Applications in Genetics and Molecular Biology 9, 39.
 */
public final class Rerandomisations {
    /** How many arrangements are drawn where not all are tried. */
    static final int DRAWS = 9_999;

    /** The same for every trial, so that an analysis gives the same numbers whoever repeats it. */
    static final long SEED = 1;

    /** How many arrangements are tried between two looks at whether to stop. */
    private static final int BETWEEN_LOOKS = 256;

    private final Structure structure;
    private final AnovaPart anova;
    private final double[] values;
    private final long seed;
    private final IntConsumer progress;

    private Rerandomisations(Structure structure, AnovaPart anova, double[] values, long seed, IntConsumer progress) {
        this.structure = structure;
        this.anova = anova;
        this.values = values;
        this.seed = seed;
        this.progress = progress;
    }

    /**
     * Tests every term that the analysis of variance tests.
     *
     * @param values one for each tray, on the scale of the analysis of variance
     * @param seed of the arrangements that are drawn
     */
    public static List<Rerandomised> of(Structure structure, double[] values, long seed) {
        return of(structure, values, seed, done -> {});
    }

    /**
     * The same for those who wait.
     *
     * @param progress gets the number of arrangements tried so far, of all terms together, every {@value #BETWEEN_LOOKS}
     * @throws CancellationException if the thread is interrupted, which it then still is
     */
    public static List<Rerandomised> of(Structure structure, double[] values, long seed, IntConsumer progress) {
        return new Rerandomisations(structure, AnovaPart.of(structure, values), values, seed, progress).all();
    }

    /** The same where the analysis of variance of the values is at hand. */
    static List<Rerandomised> of(
            Structure structure, AnovaPart anova, double[] values, long seed, IntConsumer progress) {
        return new Rerandomisations(structure, anova, values, seed, progress).all();
    }

    private List<Rerandomised> all() {
        var tested = new ArrayList<Rerandomised>();
        int done = 0;
        for (Term term : structure.terms()) {
            var stratum = structure.testedIn(term);
            var observed = stratum.flatMap(s -> anova.ratio(term, s));
            if (observed.isPresent()) {
                var one = one(term, stratum.get(), observed.get(), done);
                done += one.arrangements();
                tested.add(one);
            }
        }
        return List.copyOf(tested);
    }

    private Rerandomised one(Term term, int stratum, double observed, int done) {
        var arrangements = Rerandomisation.of(structure, term);
        var tally = new Tally(reaches(arrangements, term, stratum, observed), done);
        if (arrangements.few()) {
            arrangements.all(tally::tried);
            return finding(term, observed, arrangements, tally.tried, (double) tally.reached / tally.tried);
        }
        arrangements.draw(DRAWS, Generator.of(seed + structure.terms().indexOf(term)), tally::tried);
        return finding(term, observed, arrangements, tally.tried, (1.0 + tally.reached) / (1 + DRAWS));
    }

    /** How many arrangements were tried, and how many of them reached the observed F. */
    private final class Tally {
        private final Predicate<int[]> reaches;
        private final int before;
        private int tried;
        private int reached;

        Tally(Predicate<int[]> reaches, int before) {
            this.reaches = reaches;
            this.before = before;
        }

        void tried(int[] arrangement) {
            if (tried % BETWEEN_LOOKS == 0) {
                look();
            }
            tried++;
            reached += reaches.test(arrangement) ? 1 : 0;
        }

        private void look() {
            progress.accept(before + tried);
            if (Thread.currentThread().isInterrupted()) {
                throw new CancellationException("interrupted after " + (before + tried) + " arrangements");
            }
        }
    }

    private Predicate<int[]> reaches(Arrangements arrangements, Term term, int stratum, double observed) {
        var ratio = structure
                .decomposition()
                .ratio(stratum, structure.terms().indexOf(term))
                .orElseThrow();
        var all = arrangements instanceof Kept kept ? kept.base() : arrangements;
        if (all instanceof Redraw redraw) {
            var labels = new LabelRatio(ratio.unitValues(values), redraw.levels(), ratio.residualDf());
            return arrangement -> labels.reaches(arrangement, observed);
        }
        boolean residuals = arrangements.scheme() == Arrangements.Scheme.RESIDUALS;
        var numbers = residuals ? ratio.unitResiduals(values) : ratio.unitValues(values);
        return reaches((Exchange) all, ratio, numbers, observed);
    }

    private static Predicate<int[]> reaches(Exchange exchange, VarianceRatio ratio, double[] numbers, double observed) {
        double total = ratio.total(numbers);
        var exchanged = new double[numbers.length];
        return sources -> {
            for (int u = 0; u < sources.length; u++) {
                exchanged[u] = numbers[sources[u]];
            }
            return ratio.reaches(exchanged, exchange.keepsTotal() ? total : ratio.total(exchanged), observed);
        };
    }

    private Rerandomised finding(Term term, double observed, Arrangements arrangements, int tried, double p) {
        boolean exact = arrangements.few();
        double smallest =
                exact ? arrangements.smallestShare() : Math.max(arrangements.smallestShare(), 1.0 / (1 + DRAWS));
        return new Rerandomised(
                term.name(),
                term.factors(),
                "f",
                observed,
                tried,
                exact,
                p,
                arrangements.scheme().name().toLowerCase(Locale.ROOT),
                smallest,
                sentence(arrangements, tried, smallest));
    }

    private String sentence(Arrangements arrangements, int tried, double smallest) {
        String what = arrangements.description();
        String done = Character.toUpperCase(what.charAt(0)) + what.substring(1);
        String number = String.format(Locale.ROOT, "%,d", tried);
        String how = arrangements.few()
                ? ": all " + number + " arrangements were tried."
                : ": " + number + " arrangements were drawn by chance.";
        boolean few = smallest > structure.trial().choices().alpha();
        return done
                + how
                + (few
                        ? String.format(
                                Locale.ROOT, " With so few, p can't fall below %.2g, whatever the readings.", smallest)
                        : "");
    }
}
