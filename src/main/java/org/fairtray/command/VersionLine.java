package org.fairtray.command;

import org.fairtray.jobs.Version;
import picocli.CommandLine.IVersionProvider;

/** What {@code --version} prints. */
final class VersionLine implements IVersionProvider {
    @Override
    public String[] getVersion() {
        return new String[] {"fairtray " + Version.text()};
    }
}
