package org.fairtray.statistics.time;

import static org.fairtray.Tolerance.ITERATED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class HalfTimeDispersionTest {
    private static final List<Double> DAYS = List.of(1.0, 2.0, 3.0, 4.0);

    private static DayCounts tray(int times, long... events) {
        var counted = Arrays.stream(events).map(e -> e * times).boxed().toList();
        return new DayCounts(DAYS, counted, 50L * times);
    }

    private static List<DayCounts> trays(int times) {
        return List.of(tray(times, 4, 12, 16, 5), tray(times, 1, 8, 20, 9), tray(times, 8, 15, 11, 4));
    }

    private static double dispersion(List<DayCounts> trays) {
        return HalfTimeDispersion.of(LogLogisticCurve.of(trays).orElseThrow(), trays)
                .orElseThrow();
    }

    /**
     * Worked out in R 4.2 with numerical derivatives:
     *
     * <pre>
     * dispersion &lt;- function(y, top, start) {
     *   y &lt;- cbind(y, 50 - rowSums(y)); days &lt;- 1:4; m &lt;- length(start); n &lt;- nrow(y)
     *   p &lt;- function(a) diff(c(0, top(a) / (1 + (days / exp(a[m]))^-exp(a[m - 1])), 1))
     *   fit &lt;- optim(start, function(a) -sum(y %*% log(p(a))), method = "BFGS",
     *     control = list(reltol = 1e-15, maxit = 1000))
     *   by &lt;- function(f) sapply(1:m, function(k) {
     *     h &lt;- 1e-5 * (1:m == k); (f(fit$par + h) - f(fit$par - h)) / 2e-5 })
     *   scores &lt;- t(sapply(1:n, function(i) by(function(a) sum(y[i, ] * log(p(a))))))
     *   v &lt;- solve(50 * n * t(by(p)) %*% (by(p) / p(fit$par)))
     *   n / (n - 1) * sum((scores %*% v)[, m]^2) / v[m, m]
     * }
     * dispersion(rbind(c(4, 12, 16, 5), c(1, 8, 20, 9), c(8, 15, 11, 4)), function(a) plogis(a[1]), c(1, 1, 1))
     * dispersion(rbind(c(10, 30, 8, 2), c(4, 28, 14, 4)), function(a) 1, c(1, 1))   # all 50 come out
     * </pre>
     */
    @Test
    void asWorkedOutByNumericalDerivatives() {
        ITERATED.assertClose(1.14394794, dispersion(trays(1)));
        var allOut = List.of(tray(1, 10, 30, 8, 2), tray(1, 4, 28, 14, 4));
        assertTrue(LogLogisticCurve.of(allOut).orElseThrow().endsAtOne());
        ITERATED.assertClose(5.23177072, dispersion(allOut));
    }

    @Test
    void traysOfThriceTheSeedsThatDifferAsMuchAreThriceAsDispersed() {
        ITERATED.assertClose(3 * dispersion(trays(1)), dispersion(trays(3)));
    }

    @Test
    void identicalTraysDoNotDiffer() {
        var tray = tray(1, 4, 12, 16, 5);
        ITERATED.assertClose(0, dispersion(List.of(tray, tray, tray)));
    }

    @Test
    void traysThatDifferInTheirRateAloneDoNotDifferInTime() {
        var few = new DayCounts(DAYS, List.of(40L, 120L, 160L, 50L), 1000);
        var many = new DayCounts(DAYS, List.of(40L, 120L, 160L, 50L), 500);
        assertTrue(dispersion(List.of(few, many))
                < 0.05
                        * dispersion(List.of(
                                new DayCounts(DAYS, List.of(80L, 160L, 100L, 30L), 750),
                                new DayCounts(DAYS, List.of(20L, 80L, 180L, 90L), 750))));
    }

    @Test
    void oneTrayTellsNothing() {
        var one = trays(1).subList(0, 1);
        assertEquals(
                Optional.empty(), HalfTimeDispersion.of(LogLogisticCurve.of(one).orElseThrow(), one));
    }
}
