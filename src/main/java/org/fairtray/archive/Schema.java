package org.fairtray.archive;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.UUID;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.jdbi.v3.core.Jdbi;

/** The archive's tables: made where there are none, brought up to date where they are older. */
final class Schema {
    /** The newest of the migrations. */
    static final int NEWEST = 2;

    private static final String VERSION = Integer.toString(NEWEST);
    private static final String HISTORY = "archive_history";
    private static final Duration PATIENCE = Duration.ofSeconds(1);

    private final Address address;
    private final DataSource source;

    Schema(Address address, DataSource source) {
        this.address = address;
        this.source = source;
    }

    /**
     * Makes sure that the tables are those of this program.
     *
     * @param mayBeNew whether an archive is made where there is none
     */
    void prepare(boolean mayBeNew) {
        if (address instanceof FileAddress file && !Files.exists(file.path())) {
            refuseUnless(mayBeNew);
            begin(file.path());
        }
        int version = version();
        if (version < 0) {
            refuseUnless(mayBeNew);
        }
        if (version > NEWEST) {
            throw Refusal.because(
                    address.shown(),
                    "an archive that a newer version of fairtray made",
                    "that version, or a newer one, to work with it");
        }
        if (version < NEWEST) {
            migrate(address, source, VERSION);
        }
    }

    private void refuseUnless(boolean mayBeNew) {
        if (!mayBeNew) {
            throw Refusal.because(address.shown(), "no archive there", "one that fairtray archive add has made");
        }
    }

    /** The version of the tables; 0 where they are just being made, -1 where there are none at all. */
    private int version() {
        return Jdbi.create(source).withHandle(handle -> {
            var tables =
                    handle.createQuery(address.tables()).mapTo(String.class).set();
            if (tables.isEmpty()) {
                return -1;
            }
            if (!tables.contains(HISTORY)) {
                throw Refusal.because(
                        address.shown(),
                        "a database of something else",
                        "an archive of shared trials, or a database without tables");
            }
            return handle.createQuery("select coalesce(max(cast(version as integer)), 0) from " + HISTORY)
                    .mapTo(int.class)
                    .one();
        });
    }

    /** Makes a new file beside and gives it its name when it is whole, so that nobody ever opens half of one. */
    private void begin(Path file) {
        var beside = file.resolveSibling("." + file.getFileName() + "." + UUID.randomUUID() + ".new");
        var unnamed = FileAddress.source(beside, PATIENCE);
        try {
            migrate(address, unnamed, VERSION);
            name(beside, file);
        } catch (IOException e) {
            throw Refusal.because(
                    address.shown(), "that it can't be made (" + e.getMessage() + ")", "a folder you may write to");
        } finally {
            discard(beside);
        }
    }

    private static void discard(Path beside) {
        try {
            Files.deleteIfExists(beside);
        } catch (IOException e) {
            beside.toFile().deleteOnExit();
        }
    }

    /**
     * Takes the tables to a version. Several programs may do so at once: they wait for each other, at a server as Flyway
     * does it, at a file because its transactions begin with the lock.
     *
     * @param target {@code latest} for the last of the migrations
     */
    static void migrate(Address address, DataSource source, String target) {
        if (address instanceof FileAddress) {
            // Those who read don't wait for those who write then; the file remembers it.
            Jdbi.create(source).useHandle(handle -> handle.execute("pragma journal_mode = wal"));
        }
        Flyway.configure(Schema.class.getClassLoader())
                .dataSource(source)
                .locations("classpath:org/fairtray/archive/migrations")
                .table(HISTORY)
                .target(target)
                .placeholders(address.types())
                .load()
                .migrate();
    }

    private static void name(Path beside, Path file) throws IOException {
        try {
            try {
                Files.createLink(file, beside);
            } catch (FileAlreadyExistsException e) {
                throw e;
            } catch (UnsupportedOperationException | IOException e) {
                Files.move(beside, file);
            }
        } catch (FileAlreadyExistsException e) {
            // Somebody else was first; theirs is as good.
            return;
        }
    }
}
