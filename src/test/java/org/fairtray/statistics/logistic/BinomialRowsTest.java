package org.fairtray.statistics.logistic;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Random;
import org.fairtray.Tolerance;
import org.fairtray.statistics.Count;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BinomialRowsTest {
    /** A plain sum is off by some 1e-14 of it, and by another amount for each other set of log-odds. */
    private static final Tolerance OF_LONG_SUM = new Tolerance(1e-15);

    /** Of as many trials in each row, and of more or fewer from row to row; against an exact sum of the rows. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3})
    void aLongSumKeepsItsDigits(int kinds) {
        var random = new Random(7);
        var counts = new ArrayList<Count>();
        var logOdds = new double[200_000];
        for (int i = 0; i < logOdds.length; i++) {
            int trials = 100 + i % kinds;
            logOdds[i] = 0.8 + 0.7 * random.nextGaussian();
            counts.add(new Count(Math.round(trials * LogisticFit.rate(logOdds[i])), trials));
        }
        var rows = new BinomialRows(counts);
        var exact = BigDecimal.ZERO;
        for (int i = 0; i < logOdds.length; i++) {
            exact = exact.add(BigDecimal.valueOf(rows.set(i, logOdds[i])));
        }
        OF_LONG_SUM.assertClose(exact.doubleValue(), rows.set(logOdds));
    }
}
