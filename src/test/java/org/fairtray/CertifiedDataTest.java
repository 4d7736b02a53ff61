package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * How many digits of F are right in one-way analyses that are hard on rounding.
 *
 * <p>Source of the certified values: NIST/ITL Statistical Reference Datasets, analysis of variance (the headers of the
 * files in datasets/nist). Sets 07 and 08 have 13 constant leading digits, of which a double keeps 15 to 17: storing the
 * data alone leaves no more than three or four digits of F.
 */
class CertifiedDataTest {

    @ParameterizedTest
    @CsvSource({
        "nist-SiRstv, 1.18046237440255e+00, 9",
        "nist-SmLs01, 2.10000000000000e+01, 9",
        "nist-SmLs02, 2.01000000000000e+02, 9",
        "nist-AtmWtAg, 1.59467335677930e+01, 9",
        "nist-SmLs04, 2.10000000000000e+01, 9",
        "nist-SmLs05, 2.01000000000000e+02, 9",
        "nist-SmLs07, 2.10000000000000e+01, 2.5",
        "nist-SmLs08, 2.01000000000000e+02, 2.5"
    })
    void hasTheDigitsThatDoublesAllow(String folder, double certified, double digits) {
        var anova = Datasets.analyse(folder).outcomes().get(0).anova();
        double f = anova.strata().get(0).terms().get(0).f();
        double right = -Math.log10(Math.abs(f - certified) / certified);
        assertTrue(right >= digits, () -> "F " + f + ", certified " + certified + ": " + right + " digits are right");
    }
}
