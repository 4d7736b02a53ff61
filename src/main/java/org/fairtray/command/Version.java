package org.fairtray.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/** The version of the program, written down by the build. */
final class Version implements IVersionProvider {

    static String text() {
        try (var file = Version.class.getResourceAsStream("/fairtray.properties")) {
            var properties = new Properties();
            properties.load(file);
            return properties.getProperty("version");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    @Override
    public String[] getVersion() {
        return new String[] {"fairtray " + text()};
    }
}
