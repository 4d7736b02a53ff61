package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.fairtray.files.ProblemsException;
import org.jdbi.v3.core.Jdbi;

/** An archive of a test's own, whatever database it lies in. */
interface ArchiveContract {
    Clock NOON = Clock.fixed(Instant.parse("2026-11-28T12:00:00.123Z"), ZoneOffset.UTC);
    Instant NOON_AS_KEPT = Instant.parse("2026-11-28T12:00:00Z");

    /** The address of a database of this test's own, in which there is nothing yet. */
    String address();

    default Address parsed() {
        return Address.of(address(), System.getenv());
    }

    default Archive open() {
        return Archive.open(address(), Duration.ofSeconds(30), NOON);
    }

    /** The database itself, for looking behind the archive's back. */
    default Jdbi database() {
        return Jdbi.create(parsed().source(Duration.ofSeconds(30)));
    }

    static List<String> titles(Archive archive, Search search) {
        return archive.find(search).map(l -> l.trial().title()).toList();
    }

    static String refusal(Runnable asked) {
        return assertThrows(ProblemsException.class, asked::run).getMessage();
    }
}
