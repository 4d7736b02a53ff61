package org.fairtray.network;

import java.util.function.Consumer;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Brought;
import org.fairtray.archive.Search;
import org.fairtray.packs.PackFile;
import org.fairtray.pooling.SharedTrial;
import org.fairtray.pooling.SharedTrials;
import org.fairtray.pooling.contribution.ContributionText;

/**
 * The trials of an archive, one after the other as the database hands them over. What each brings was worked out when it was
 * added; only where another version of the program did so is it worked out again, from its pack.
 */
public record ArchivedTrials(Archive archive, Search search) implements SharedTrials {

    @Override
    public void forEach(Consumer<? super SharedTrial> taker) {
        try (var found = archive.contributions(search)) {
            found.map(this::trial).forEach(taker);
        }
    }

    private SharedTrial trial(Brought brought) {
        if (brought.version() == ContributionText.FORMAT) {
            return new SharedTrial(brought.id(), brought.farm(), ContributionText.read(brought.text()));
        }
        return SharedFiles.of(brought.title(), PackFile.read(brought.title(), archive.pack(brought.id())));
    }
}
