package org.fairtray.files;

import java.util.List;
import java.util.Optional;
import org.fairtray.trial.Seal;

/**
 * How a layout was drawn, to be sealed with it.
 *
 * @param seed the seed of the draw
 * @param generator the name of the random generator
 * @param restrictions restrictions on the draw, in words; none for a plain one
 * @param time when it was drawn, ISO 8601
 * @param version the version that drew it
 */
public record Draw(long seed, String generator, List<String> restrictions, String time, String version) {

    public Draw {
        restrictions = List.copyOf(restrictions);
    }

    /** The seal of a plan and what was drawn for it. */
    Seal seal(StoredFile plan, StoredFile layout, Optional<StoredFile> frames, Optional<StoredFile> moves) {
        return new Seal(
                plan.sha256(),
                layout.sha256(),
                frames.map(StoredFile::sha256),
                moves.map(StoredFile::sha256),
                seed,
                generator,
                restrictions,
                time,
                version);
    }
}
