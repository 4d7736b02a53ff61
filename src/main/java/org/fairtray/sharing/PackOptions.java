package org.fairtray.sharing;

import java.util.Optional;
import java.util.Set;

/**
 * How a trial is packed.
 *
 * @param keep what goes along that is left out otherwise
 * @param farm a code that tells packs of one farm belong together
 * @param licence the SPDX name of the licence under which others may use it
 */
public record PackOptions(Set<Keep> keep, Optional<String> farm, Optional<String> licence) {
    /** Everything personal left out. */
    public static final PackOptions USUAL = new PackOptions(Set.of(), Optional.empty(), Optional.empty());

    public PackOptions {
        keep = Set.copyOf(keep);
    }

    boolean keeps(Keep what) {
        return keep.contains(what);
    }
}
