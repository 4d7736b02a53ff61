package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** An archive on a server, each test in a schema of its own. */
class PostgresArchiveTest implements KeepingContract, FindingContract, SharingContract {
    private final TestServer server = new TestServer();

    @BeforeEach
    void makeSchema() {
        server.makeSchema();
    }

    @AfterEach
    void dropSchema() {
        server.dropSchema();
    }

    @Override
    public String address() {
        return server.address();
    }

    @Override
    public String lock() {
        return "lock table shared_trial in exclusive mode";
    }

    @Test
    void aDatabaseThatIsntThereIsToldOf() {
        var there = (ServerAddress) parsed();
        var wrong = "postgresql://" + there.place().replaceAll("/.*", "/no_such_database");
        assertEquals(
                new ServerAddress(wrong.substring(13), there.user(), there.password(), Map.of()).shown()
                        + ": found no database of this name; expected one that createdb made",
                ArchiveContract.refusal(
                        () -> Archive.open(wrong + "?user=" + there.user().orElse("") + "&password="
                                + there.password().orElse(""))));
    }

    @Test
    void aWrongPasswordIsToldOfAndNotShown() {
        var there = (ServerAddress) parsed();
        assumeTrue(there.password().isPresent(), "the server asks for no password: skipped");
        assertEquals(
                there.shown()
                        + ": found that the server doesn't let this user in; expected a user of that server, with the"
                        + " right password in PGPASSWORD or ~/.pgpass",
                ArchiveContract.refusal(
                        () -> Archive.open("postgresql://" + there.user().orElse("") + ":wrong@" + there.place())));
    }

    @Test
    void aUserWhoMayNotWriteIsToldSo() {
        open().close();
        var name = "reader_" + System.nanoTime();
        database().useHandle(handle -> {
            handle.execute("create role " + name + " login password 'reads'");
            handle.execute("do $$ begin execute 'grant usage on schema ' || current_schema() || ' to " + name + "';"
                    + " execute 'grant select on all tables in schema ' || current_schema() || ' to " + name
                    + "'; end $$");
        });
        var reader = address().replaceAll("//[^/@]*@", "//").replaceAll("(user|password)=[^&]*&?", "") + "&user=" + name
                + "&password=reads";
        try (var archive = Archive.existing(reader)) {
            assertEquals(0, archive.find(Search.all()).count());
            assertEquals(
                    Address.of(reader, Map.of()).shown()
                            + ": found no permission; expected a user who may make and change tables there",
                    ArchiveContract.refusal(() -> archive.add(Deposits.numbered(1))));
        } finally {
            database().useHandle(handle -> {
                handle.execute("drop owned by " + name);
                handle.execute("drop role " + name);
            });
        }
    }
}
