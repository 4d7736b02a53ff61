package org.fairtray.archive;

import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.time.Duration;
import java.util.UUID;
import org.jdbi.v3.core.Jdbi;

/** A schema of one's own on the server that FAIRTRAY_TEST_DATABASE names; without it the test is skipped. */
final class TestServer {
    private static final String NAME = "FAIRTRAY_TEST_DATABASE";

    private final String database = System.getenv(NAME);
    private final String schema = "test_" + UUID.randomUUID().toString().replace('-', '_');

    void makeSchema() {
        assumeTrue(
                database != null && !database.isBlank(),
                NAME + " isn't set to the address of an empty PostgreSQL database: skipped");
        execute("create schema " + schema);
    }

    void dropSchema() {
        if (database != null && !database.isBlank()) {
            execute("drop schema if exists " + schema + " cascade");
        }
    }

    String address() {
        return database + (database.contains("?") ? "&" : "?") + "currentSchema=" + schema;
    }

    private void execute(String sql) {
        var whole = Address.of(database, System.getenv());
        Jdbi.create(whole.source(Duration.ofSeconds(30))).useHandle(handle -> handle.execute(sql));
    }
}
