package org.fairtray.pooling;

import java.util.Optional;
import org.fairtray.pooling.contribution.Contribution;

/**
 * A trial that was shared.
 *
 * @param id its content's hash
 * @param farm a code that trials of one farm share, where it was given
 * @param contribution what it brings
 */
public record SharedTrial(String id, Optional<String> farm, Contribution contribution) {

    /** The farm; a trial that names none is taken for a farm of its own. */
    public String farmOrOwn() {
        return farm.map(f -> "farm " + f).orElse(id);
    }
}
