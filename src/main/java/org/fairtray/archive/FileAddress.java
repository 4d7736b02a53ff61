package org.fairtray.archive;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Map;
import javax.sql.DataSource;
import org.sqlite.SQLiteConfig;
import org.sqlite.SQLiteDataSource;

/**
 * One file of SQLite.
 *
 * @param typed as it was given, for messages
 */
record FileAddress(Path path, String typed) implements Address {
    private static final String[] OTHERS = {"jdbc:", "://"};

    static FileAddress of(String typed) {
        for (var other : OTHERS) {
            if (typed.contains(other)) {
                throw Refusal.because(
                        other.equals("jdbc:") ? "jdbc:..." : typed.substring(0, typed.indexOf(other)) + "://...",
                        "an address of no database that is known here",
                        "the name of a file, or postgresql://USER@HOST/DATABASE");
            }
        }
        try {
            if (!typed.isBlank()) {
                return new FileAddress(Path.of(typed).toAbsolutePath(), typed);
            }
        } catch (InvalidPathException e) {
            throw Refusal.because(
                    "archive", "a name that no file can have (" + e.getReason() + ")", "the name of a file");
        }
        throw Refusal.because("archive", "no name", "the name of a file, or postgresql://USER@HOST/DATABASE");
    }

    @Override
    public String shown() {
        return typed;
    }

    @Override
    public DataSource source(Duration patience) {
        return source(path, patience);
    }

    static SQLiteDataSource source(Path file, Duration patience) {
        var config = new SQLiteConfig();
        config.setBusyTimeout((int) patience.toMillis());
        config.enforceForeignKeys(true);
        // Whoever is going to write waits at the start; two who began by reading, as Flyway does, could not both go on.
        config.setTransactionMode(SQLiteConfig.TransactionMode.IMMEDIATE);
        // What is deleted is written over: a withdrawn trial is gone from the file.
        config.setPragma(SQLiteConfig.Pragma.SECURE_DELETE, "true");
        var source = new SQLiteDataSource(config);
        // As an address, since a file's name may hold a question mark.
        source.setUrl("jdbc:sqlite:" + file.toUri());
        return source;
    }

    @Override
    public Map<String, String> types() {
        return Map.of("text", "text", "bytes", "blob");
    }

    @Override
    public String tables() {
        return "select name from sqlite_master where type = 'table' and name not like 'sqlite!_%' escape '!'";
    }
}
