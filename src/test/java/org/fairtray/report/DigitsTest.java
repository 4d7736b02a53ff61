package org.fairtray.report;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** In these tables "~" stands for the space that never breaks. */
class DigitsTest {

    private static String plain(String written) {
        return written.replace('\u00a0', '~').replace('\u2212', '-');
    }

    @ParameterizedTest
    @CsvSource({
        "0, 0~%",
        "1, 100~%",
        "0.354, 35~%",
        "0.005, 0.5~%",
        "0.0004, <~0.1~%",
        "0.994, 99.4~%",
        "0.9996, >~99.9~%",
        "0.01, 1~%",
        "0.99, 99~%",
        "0.0099, 1.0~%"
    })
    void writesRates(double rate, String expected) {
        assertEquals(expected, plain(Digits.percent(rate)));
    }

    @ParameterizedTest
    @CsvSource({
        "0.2, +20~points",
        "-0.117, -12~points",
        "0.01, +1~point",
        "-0.01, -1~point",
        "0.004, +0.4~points",
        "0, 0~points",
        "-0.0001, 0~points",
        "-0.0096, -1~point"
    })
    void writesDifferencesInPoints(double difference, String expected) {
        assertEquals(expected, plain(Digits.points(difference)));
    }

    @ParameterizedTest
    @CsvSource({"0.0041, 0.004", "0.00004, <~0.001", "0.352, 0.35", "0.0996, 0.100", "0.999, >~0.99", "0.001, 0.001"})
    void writesP(double p, String expected) {
        assertEquals(expected, plain(Digits.p(p)));
    }

    @ParameterizedTest
    @CsvSource({
        "34.23, 34.2",
        "112.4, 112",
        "0.01234, 0.0123",
        "0, 0",
        "-4, -4.00",
        "12345, 12300",
        "9.999, 10.0",
        "0.0000000012, 1.20 × 10^-9"
    })
    void writesThreeDigitsThatCount(double value, String expected) {
        assertEquals(expected, plain(Digits.measure(value)));
    }

    @Test
    void saysWhatIsNotAvailable() {
        assertEquals("not available", Digits.percent(null));
        assertEquals("not available", Digits.points(null));
        assertEquals("not available", Digits.p(null));
        assertEquals("not available", Digits.range(Digits.bare(0.2), Digits.bare(null)));
        assertEquals("not available", Digits.df(null));
        assertEquals("not available", Digits.statistic("f", null));
    }

    @Test
    void writesStatisticsAndDegreesOfFreedom() {
        assertEquals("F 12.61", Digits.statistic("f", 12.6087));
        assertEquals("likelihood ratio 3.90", Digits.statistic("likelihood ratio", 3.9));
        assertEquals("11", Digits.df(11.0));
        assertEquals("10.6", Digits.df(10.57));
        assertEquals("20 to 31", Digits.range("20", "31"));
        assertEquals("1\u00a0tray", Digits.counted(1, "tray", "trays"));
    }
}
