package org.fairtray.command;

import java.util.Optional;
import org.fairtray.archive.Search;
import picocli.CommandLine.Option;

/** Which trials of an archive are meant. */
final class ArchiveSearchOptions {
    @Option(names = "--crop", paramLabel = "WORDS", description = "Only trials of a crop whose name has these words.")
    private String crop;

    @Option(names = "--factor", paramLabel = "WORDS", description = "Only those that varied something so called.")
    private String factor;

    @Option(
            names = "--medium",
            paramLabel = "WORDS",
            description = "Only those in which this was a level, or was the same for all trays.")
    private String medium;

    @Option(names = "--word", paramLabel = "WORDS", description = "Only those with these words in the title.")
    private String word;

    @Option(names = "--protocol", paramLabel = "HASH", description = "Only those of one plan: SHA-256 of its file.")
    private String protocol;

    Search search(boolean withdrawn) {
        return new Search(
                Optional.ofNullable(crop),
                Optional.ofNullable(factor),
                Optional.ofNullable(medium),
                Optional.ofNullable(word),
                Optional.ofNullable(protocol),
                withdrawn);
    }
}
