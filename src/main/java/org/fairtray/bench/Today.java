package org.fairtray.bench;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Which day of counting it is.
 *
 * @param day a day of the plan; null where it is none of them, or can't be told
 * @param why in a sentence
 */
public record Today(Integer day, String why) {
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("EEEE d MMMM", Locale.ENGLISH);
    /** A clock may be set back an hour in autumn. */
    private static final Duration HOUR = Duration.ofHours(1);

    /**
     * Today by a clock, which may be wrong.
     *
     * @param days the plan's days of counting, rising
     * @param newest when the newest count was written
     */
    static Today of(List<Integer> days, Optional<LocalDate> sown, Clock clock, Optional<Instant> newest) {
        var now = clock.instant();
        if (newest.filter(n -> n.isAfter(now.plus(HOUR))).isPresent()) {
            return new Today(
                    null,
                    "The clock of this computer says " + date(LocalDate.now(clock))
                            + ", which is before the newest count, of "
                            + date(LocalDate.ofInstant(newest.get(), clock.getZone()))
                            + ". Set it right, and choose the day yourself until then.");
        }
        if (sown.isEmpty()) {
            return new Today(null, "Nobody has said yet on which day the trays were sown.");
        }
        long day = ChronoUnit.DAYS.between(sown.get(), LocalDate.now(clock));
        var since = "sown on " + date(sown.get());
        if (days.stream().anyMatch(d -> d == day)) {
            return new Today((int) day, "Today is day " + day + ", " + since + ".");
        }
        return new Today(null, "Today is day " + day + ", " + since + ". " + next(days, day, sown.get()));
    }

    private static String next(List<Integer> days, long today, LocalDate sown) {
        return days.stream()
                .filter(d -> d > today)
                .findFirst()
                .map(d -> "The plan counts next on day " + d + ", " + date(sown.plusDays(d)) + ".")
                .orElse("The plan's last day of counting was day " + days.get(days.size() - 1) + ".");
    }

    private static String date(LocalDate date) {
        return DATE.format(date);
    }
}
