package org.fairtray.statistics.logistic;

import static org.fairtray.Tolerance.SUMMED;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

class RisingProductTest {

    @ParameterizedTest(name = "{0} factors from {1} in steps of {2}")
    @CsvFileSource(resources = "rising-product.csv", useHeadersInDisplayName = true)
    void agreesWithTheReference(
            long k, double a, double t, double value, double byA, double byT, double byAA, double byAT, double byTT) {
        var product = RisingProduct.of(k, a, t);
        SUMMED.assertClose(value, product.value(), Math.max(1, Math.abs(value)));
        SUMMED.assertClose(byA, product.byA());
        SUMMED.assertClose(byT, product.byT());
        SUMMED.assertClose(byAA, product.byAA());
        SUMMED.assertClose(byAT, product.byAT());
        SUMMED.assertClose(byTT, product.byTT());
    }
}
