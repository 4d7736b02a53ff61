package org.fairtray.archive;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.sql.SQLException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import javax.sql.DataSource;
import org.postgresql.ds.PGSimpleDataSource;

/**
 * A database of a PostgreSQL server.
 *
 * @param place host, port and database
 * @param user empty for who runs the program
 * @param password empty where ~/.pgpass has it, or none is asked for
 * @param settings what else the address says, such as sslmode
 */
record ServerAddress(String place, Optional<String> user, Optional<String> password, Map<String, String> settings)
        implements Address {
    private static final Pattern FORM =
            Pattern.compile("(?:jdbc:)?postgres(?:ql)?://(?:([^/?#@]*)@)?([^/?#@]*/[^/?#]+)(?:\\?([^#]*))?");

    private static final int SECONDS_TO_CONNECT = 10;

    static boolean isOne(String typed) {
        return typed.matches("(?s)(jdbc:)?postgres(ql)?:.*");
    }

    static ServerAddress of(String typed, Map<String, String> environment) {
        var parts = FORM.matcher(typed.strip());
        if (!parts.matches()) {
            // Not as typed: a password may stand in it.
            throw Refusal.because(
                    "archive", "an address of PostgreSQL that can't be read", "postgresql://USER@HOST/DATABASE");
        }
        var settings = settings(Optional.ofNullable(parts.group(3)).orElse(""));
        var user = Optional.ofNullable(settings.remove("user"));
        var password = Optional.ofNullable(settings.remove("password"));
        if (parts.group(1) != null) {
            var named = parts.group(1).split(":", 2);
            user = Optional.of(decoded(named[0]));
            password = named.length > 1 ? Optional.of(decoded(named[1])) : password;
        }
        var secret = password.or(() -> Optional.ofNullable(environment.get("PGPASSWORD")));
        return new ServerAddress(parts.group(2), user, secret, Map.copyOf(settings));
    }

    private static Map<String, String> settings(String query) {
        var settings = new LinkedHashMap<String, String>();
        for (var setting : query.split("&", -1)) {
            var parts = setting.split("=", 2);
            if (parts.length == 2) {
                settings.put(decoded(parts[0]), decoded(parts[1]));
            }
        }
        return settings;
    }

    private static String decoded(String part) {
        try {
            return URLDecoder.decode(part.replace("+", "%2B"), StandardCharsets.UTF_8);
        } catch (IllegalArgumentException e) {
            throw Refusal.because(
                    "archive", "an address with a % that no two digits follow", "%25 where a percent sign is meant");
        }
    }

    @Override
    public String shown() {
        return "postgresql://" + user.map(u -> u + "@").orElse("") + place;
    }

    @Override
    public String toString() {
        return shown();
    }

    @Override
    public DataSource source(Duration patience) {
        var source = new PGSimpleDataSource();
        source.setUrl("jdbc:postgresql://" + place);
        source.setApplicationName("fairtray");
        source.setConnectTimeout(SECONDS_TO_CONNECT);
        source.setReWriteBatchedInserts(true);
        source.setOptions("-c lock_timeout=" + patience.toMillis());
        user.ifPresent(source::setUser);
        password.ifPresent(source::setPassword);
        settings.forEach((name, value) -> set(source, name, value));
        return source;
    }

    private void set(PGSimpleDataSource source, String name, String value) {
        try {
            source.setProperty(name, value);
        } catch (SQLException e) {
            throw Refusal.because(
                    shown(), "the setting " + name + ", which PostgreSQL doesn't have", "another or none");
        }
    }

    @Override
    public Map<String, String> types() {
        return Map.of("text", "text collate \"C\"", "bytes", "bytea");
    }

    @Override
    public String tables() {
        return "select tablename from pg_catalog.pg_tables where schemaname = current_schema()";
    }
}
