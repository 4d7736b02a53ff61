package org.fairtray.statistics.pooling;

import static org.fairtray.Tolerance.ITERATED;
import static org.fairtray.Tolerance.SUMMED;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.fairtray.Cells;
import org.fairtray.statistics.ModelMatrix.Column;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;

class ModeratorsTest {
    private static List<Column> columns(double[][] rows) {
        return IntStream.range(0, rows[0].length)
                .mapToObj(j -> new Column(
                        "m" + j,
                        java.util.Arrays.stream(rows).mapToDouble(row -> row[j]).toArray()))
                .toList();
    }

    private static double[] each(Moderators fit, java.util.function.IntToDoubleFunction number) {
        return IntStream.range(0, fit.names().size()).mapToDouble(number).toArray();
    }

    @ParameterizedTest(name = "{0}")
    @CsvFileSource(resources = "moderators.csv", useHeadersInDisplayName = true, maxCharsPerColumn = 20000)
    void agreesWithTheReference(
            String name,
            @ConvertWith(Cells.Doubles.class) double[] estimates,
            @ConvertWith(Cells.Doubles.class) double[] variances,
            @ConvertWith(Cells.Rows.class) double[][] columns,
            @ConvertWith(Cells.Doubles.class) double[] coefficients,
            @ConvertWith(Cells.Doubles.class) double[] errors,
            @ConvertWith(Cells.Doubles.class) double[] low,
            @ConvertWith(Cells.Doubles.class) double[] high,
            @ConvertWith(Cells.Doubles.class) double[] p,
            double tauSquared,
            double q,
            double qP,
            double f,
            double fP,
            double explained) {
        var fit = Moderators.of(Invented.studies(estimates, variances), columns(columns), 0.05)
                .orElseThrow();
        assertTrue(fit.settled(), name);
        ITERATED.assertClose(tauSquared, fit.tauSquared(), Math.max(tauSquared, 1e-3));
        ITERATED.assertClose(coefficients, each(fit, fit::coefficient));
        ITERATED.assertClose(errors, each(fit, fit::standardError));
        ITERATED.assertClose(low, each(fit, j -> fit.interval(j).low()));
        ITERATED.assertClose(high, each(fit, j -> fit.interval(j).high()));
        ITERATED.assertClose(p, each(fit, fit::p));
        ITERATED.assertClose(q, fit.q());
        ITERATED.assertClose(qP, fit.qP());
        var together = fit.together().orElseThrow();
        ITERATED.assertClose(f, together.f());
        ITERATED.assertClose(fP, together.p());
        assertEquals(coefficients.length - 1, together.numerator());
        assertEquals(estimates.length - coefficients.length, together.denominator());
        ITERATED.assertClose(explained, fit.explained().orElseThrow(), 1);
    }

    /** Without a moderator it is the pooled estimate. */
    @Test
    void withoutColumnsItIsThePooledEstimate() {
        var studies = Invented.studies(8, 2);
        var fit = Moderators.of(studies, List.of(), 0.1).orElseThrow();
        var pooled = RandomEffects.of(studies, 0.1);
        SUMMED.assertClose(pooled.estimate(), fit.coefficient(0));
        SUMMED.assertClose(pooled.low(), fit.interval(0).low());
        SUMMED.assertClose(pooled.plainStandardError(), fit.plainStandardError(0));
        SUMMED.assertClose(pooled.p(), fit.p(0));
        assertEquals(Optional.empty(), fit.together());
        SUMMED.assertClose(0, fit.explained().orElseThrow(), 1);
    }

    /** y_i = 2 - 3 x_i exactly: nothing is left between studies nor within. */
    @Test
    void anExactLineLeavesNothing() {
        var x = new double[] {1, 2, 4, 7, 11};
        var studies = IntStream.range(0, 5)
                .mapToObj(i -> new Study(2 - 3 * x[i], 0.1 + i))
                .toList();
        var fit = Moderators.of(studies, List.of(new Column("x", x)), 0.05).orElseThrow();
        assertEquals(0, fit.tauSquared());
        SUMMED.assertClose(new double[] {2, -3}, each(fit, fit::coefficient));
        assertEquals(OptionalDouble.of(1), fit.explained());
    }

    @Test
    void redundantColumnsAreDroppedAndNamed() {
        var studies = Invented.studies(9, 6);
        var warm = IntStream.range(0, 9).mapToDouble(i -> 15 + i * i).toArray();
        var inFahrenheit = java.util.Arrays.stream(warm).map(c -> 32 + 1.8 * c).toArray();
        var same = IntStream.range(0, 9).mapToDouble(i -> 7).toArray();
        var fit = Moderators.of(
                        studies,
                        List.of(new Column("same", same), new Column("warm", warm), new Column("warm", inFahrenheit)),
                        0.05)
                .orElseThrow();
        assertEquals(List.of("intercept", "warm"), fit.names());
        assertEquals(List.of("same", "warm"), fit.dropped());
        var alone =
                Moderators.of(studies, List.of(new Column("warm", warm)), 0.05).orElseThrow();
        SUMMED.assertClose(alone.coefficient(1), fit.coefficient(1));
        assertEquals(7, fit.degreesOfFreedom());
    }

    /** The unit of a moderator, or where its zero lies, changes neither what is left nor any p of the moderators. */
    @Test
    void theUnitOfAModeratorDoesNotMatter() {
        for (long seed = 1; seed <= 20; seed++) {
            var studies = Invented.studies(10, seed);
            var x = IntStream.range(0, 10).mapToDouble(i -> Math.sin(i)).toArray();
            var far = java.util.Arrays.stream(x).map(v -> 1e5 + 10 * v).toArray();
            var one = Moderators.of(studies, List.of(new Column("x", x)), 0.05).orElseThrow();
            var other =
                    Moderators.of(studies, List.of(new Column("x", far)), 0.05).orElseThrow();
            ITERATED.assertClose(one.tauSquared(), other.tauSquared(), 1);
            ITERATED.assertClose(one.coefficient(1), 10 * other.coefficient(1));
            ITERATED.assertClose(one.p(1), other.p(1));
            ITERATED.assertClose(
                    one.together().orElseThrow().p(),
                    other.together().orElseThrow().p());
        }
    }

    @Test
    void theOrderOfStudiesDoesNotMatter() {
        var studies = new ArrayList<>(Invented.studies(6, 8));
        var x = new double[] {1, 5, 2, 8, 3, 3};
        var one = Moderators.of(studies, List.of(new Column("x", x)), 0.05).orElseThrow();
        java.util.Collections.reverse(studies);
        var other = Moderators.of(studies, List.of(new Column("x", new double[] {3, 3, 8, 2, 5, 1})), 0.05)
                .orElseThrow();
        ITERATED.assertClose(each(one, one::coefficient), each(other, other::coefficient));
        ITERATED.assertClose(one.tauSquared(), other.tauSquared(), 1);
    }

    @Test
    void tooFewStudiesGiveNothing() {
        var line = List.of(new Column("x", new double[] {1, 2}));
        assertEquals(Optional.empty(), Moderators.of(Invented.studies(2, 1), line, 0.05));
        assertEquals(
                Optional.empty(),
                Moderators.of(Invented.studies(1, 1), List.of(new Column("x", new double[] {1})), 0.05));
        assertEquals(Optional.empty(), Moderators.of(List.of(), List.of(), 0.05));
    }

    @Test
    void saysWhatIsOutOfRange() {
        var refused = assertThrows(
                IllegalArgumentException.class,
                () -> Moderators.of(Invented.studies(3, 1), List.of(new Column("x", new double[2])), 0.05));
        assertEquals("columns of [2] numbers, alpha 0.05: expected 3 of each, between 0 and 1", refused.getMessage());
    }
}
