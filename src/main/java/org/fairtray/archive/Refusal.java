package org.fairtray.archive;

import java.sql.SQLException;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.sqlite.SQLiteException;

/** What a database refused, in a sentence for growers. */
final class Refusal {
    /** What was found, and what was expected. */
    private record Said(String found, String expected) {}

    private static final String MAY_WRITE = "a file in a folder, both of which you may write to";
    private static final Said BUSY = new Said("others who write to it for too long", "a quieter moment; try again");
    private static final Said FULL = new Said("a full disk", "room on the disk");
    private static final Said NO_PERMISSION = new Said("no permission to write", MAY_WRITE);

    /** By the first words of SQLite's names for what went wrong. */
    private static final Map<String, Said> OF_FILES = Map.of(
            "SQLITE_NOTADB",
            new Said("a file that isn't an archive", "an archive of shared trials, or a name that no file has yet"),
            "SQLITE_CORRUPT",
            new Said("a damaged archive", "a whole one, from your copies"),
            "SQLITE_CANTOPEN",
            new Said("that it can't be opened (no such folder, or no permission)", MAY_WRITE),
            "SQLITE_READONLY",
            NO_PERMISSION,
            "SQLITE_PERM",
            NO_PERMISSION,
            "SQLITE_BUSY",
            BUSY,
            "SQLITE_LOCKED",
            BUSY,
            "SQLITE_FULL",
            FULL,
            "SQLITE_IOERR",
            new Said("that the disk can't be read or written", "a disk that works, with room on it"));

    /** By PostgreSQL's codes, or the first two letters of them. */
    private static final Map<String, Said> OF_SERVERS = Map.ofEntries(
            Map.entry("08", new Said("no server that answers", "a PostgreSQL server that runs there")),
            Map.entry(
                    "08004",
                    new Said(
                            "that the server asks for a password, or lets nobody in from here",
                            "a password in PGPASSWORD or ~/.pgpass, and a server that lets you in")),
            Map.entry(
                    "22023",
                    new Said("a setting that PostgreSQL doesn't understand", "another in the address, or none")),
            Map.entry(
                    "28",
                    new Said(
                            "that the server doesn't let this user in",
                            "a user of that server, with the right password in PGPASSWORD or ~/.pgpass")),
            Map.entry("3D", new Said("no database of this name", "one that createdb made")),
            Map.entry("3F", new Said("no schema of this name", "one that was made in the database")),
            Map.entry("42501", new Said("no permission", "a user who may make and change tables there")),
            Map.entry("55P03", BUSY),
            Map.entry("53100", FULL),
            Map.entry("53", new Said("a server that has no room left for this", "a server that is less busy")),
            Map.entry("57", new Said("a server that is stopping or starting", "a PostgreSQL server that runs there")),
            Map.entry("58", new Said("that the server's disk can't be read or written", "a server whose disk works")),
            Map.entry("25006", new Said("a server that only answers questions", "one that may be written to")));

    private Refusal() {}

    static ProblemsException because(String shown, String found, String expected) {
        return new ProblemsException(new Problem(shown, 0, found, expected, Optional.empty()));
    }

    /**
     * What the database answered.
     *
     * @param shown what messages call the archive
     * @throws ProblemsException if it refused, with why; a defect of ours stays what it is
     */
    static <T> T orSaid(String shown, Supplier<T> asked) {
        try {
            return asked.get();
        } catch (ProblemsException e) {
            throw e;
        } catch (RuntimeException e) {
            var said = refused(e).flatMap(Refusal::said);
            if (said.isEmpty()) {
                throw e;
            }
            throw because(shown, said.get().found(), said.get().expected());
        }
    }

    private static Optional<SQLException> refused(Throwable failure) {
        for (var each = failure; each != null; each = each.getCause()) {
            if (each instanceof SQLException refused) {
                return Optional.of(refused);
            }
        }
        return Optional.empty();
    }

    private static Optional<Said> said(SQLException refused) {
        if (refused instanceof SQLiteException file) {
            var name = file.getResultCode().name();
            return OF_FILES.entrySet().stream()
                    .filter(e -> name.startsWith(e.getKey()))
                    .map(Map.Entry::getValue)
                    .findFirst();
        }
        var code = Optional.ofNullable(refused.getSQLState()).filter(c -> c.length() == 5);
        return code.map(OF_SERVERS::get).or(() -> code.map(c -> OF_SERVERS.get(c.substring(0, 2))));
    }
}
