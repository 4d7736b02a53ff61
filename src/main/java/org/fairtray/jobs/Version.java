package org.fairtray.jobs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Properties;

/** The version of the program, written down by the build. */
public final class Version {
    private Version() {}

    public static String text() {
        try (var file = Version.class.getResourceAsStream("/fairtray.properties")) {
            var properties = new Properties();
            properties.load(file);
            return properties.getProperty("version");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
