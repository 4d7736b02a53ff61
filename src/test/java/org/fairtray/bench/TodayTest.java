package org.fairtray.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class TodayTest {
    private static final List<Integer> DAYS = List.of(1, 2, 4);
    private static final Optional<LocalDate> SOWN = Optional.of(LocalDate.of(2026, 3, 2));

    private static Today on(String date, Optional<LocalDate> sown, Optional<Instant> newest) {
        return Today.of(DAYS, sown, Clock.fixed(Instant.parse(date + "T08:00:00Z"), ZoneOffset.UTC), newest);
    }

    private static Today on(String date) {
        return on(date, SOWN, Optional.empty());
    }

    @Test
    void aDayOfThePlan() {
        assertEquals(new Today(2, "Today is day 2, sown on Monday 2 March."), on("2026-03-04"));
    }

    @Test
    void aDayBetween() {
        assertEquals(
                new Today(
                        null, "Today is day 3, sown on Monday 2 March. The plan counts next on day 4, Friday 6 March."),
                on("2026-03-05"));
    }

    @Test
    void afterTheLast() {
        assertEquals(
                new Today(null, "Today is day 7, sown on Monday 2 March. The plan's last day of counting was day 4."),
                on("2026-03-09"));
    }

    @Test
    void notSownYet() {
        assertEquals(
                new Today(null, "Nobody has said yet on which day the trays were sown."),
                on("2026-03-04", Optional.empty(), Optional.empty()));
    }

    @Test
    void aClockBeforeTheNewestCountIsNotBelieved() {
        var newest = Optional.of(Instant.parse("2026-03-05T08:00:00Z"));
        assertEquals(
                new Today(
                        null,
                        "The clock of this computer says Wednesday 4 March, which is before the newest count, of Thursday"
                                + " 5 March. Set it right, and choose the day yourself until then."),
                on("2026-03-04", SOWN, newest));
    }

    @Test
    void anHourBackInAutumnIsBelieved() {
        assertEquals(
                2,
                on("2026-03-04", SOWN, Optional.of(Instant.parse("2026-03-04T08:59:00Z")))
                        .day());
    }
}
