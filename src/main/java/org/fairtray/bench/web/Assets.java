package org.fairtray.bench.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** The files of the pages, which come with the program. */
final class Assets {
    private static final String ROOM = "/org/fairtray/bench/pages/";
    private static final Pattern PATH =
            Pattern.compile("([A-Za-z0-9_-]+(\\.[0-9]+)?/)*[A-Za-z0-9_-]+\\.(html|js|css|svg)");
    private static final Map<String, String> TYPES = Map.of(
            "html", "text/html; charset=utf-8",
            "js", "text/javascript; charset=utf-8",
            "css", "text/css; charset=utf-8",
            "svg", "image/svg+xml");

    private Assets() {}

    /** A file by its path among the pages; none for any other path. */
    static Optional<Answer> find(String path) {
        if (!PATH.matcher(path).matches()) {
            return Optional.empty();
        }
        try (var file = Assets.class.getResourceAsStream(ROOM + path)) {
            var type = TYPES.get(path.substring(path.lastIndexOf('.') + 1));
            return file == null
                    ? Optional.empty()
                    : Optional.of(Answer.of(type, file.readAllBytes()).with("Cache-Control", "no-cache"));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
