package org.fairtray.files;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/** The ready plans that come with the program: every {@code NAME.yaml} in designs/. */
public final class ReadyPlans {
    private static final String PLAIN = "plain";
    private static final String ENDING = ".yaml";

    private ReadyPlans() {}

    /** Their names, in alphabetical order; the plain one is not among them. */
    public static List<String> names() {
        return Listed.NAMES;
    }

    /** Listed once: a jar can't be opened as a folder by two threads at a time. */
    private static final class Listed {
        static final List<String> NAMES = listed();
    }

    private static List<String> listed() {
        try {
            var folder = ReadyPlans.class.getResource("/designs").toURI();
            return folder.getScheme().equals("jar") ? namesInJar(folder) : names(Path.of(folder));
        } catch (URISyntaxException e) {
            throw new IllegalStateException("the ready plans have no address", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static List<String> namesInJar(URI folder) throws IOException {
        try (var jar = FileSystems.newFileSystem(folder, Map.of())) {
            return names(jar.getPath("/designs"));
        }
    }

    private static List<String> names(Path folder) throws IOException {
        try (var files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString())
                    .filter(n -> n.endsWith(ENDING))
                    .map(n -> n.substring(0, n.length() - ENDING.length()))
                    .filter(n -> !n.equals(PLAIN))
                    .sorted()
                    .toList();
        }
    }

    /** The commented plan to start from. */
    public static String plain() {
        return text(PLAIN);
    }

    /** What to say where there is no ready plan of a name. */
    public static String missing(String name) {
        var names = names();
        return "no ready plan '" + name + "'; expected one of " + String.join(", ", names)
                + Nearest.to(name, names).map(n -> "; nearest: " + n).orElse("");
    }

    /**
     * A ready plan.
     *
     * @throws IllegalArgumentException if there is none of that name
     */
    public static String like(String name) {
        if (!names().contains(name)) {
            throw new IllegalArgumentException(missing(name));
        }
        return text(name);
    }

    /** The plan of the demonstration. */
    public static String demo() {
        return resource("/demo.yaml");
    }

    private static String text(String name) {
        return resource("/designs/" + name + ENDING);
    }

    private static String resource(String path) {
        try (var file = ReadyPlans.class.getResourceAsStream(path)) {
            return new String(file.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
