package org.fairtray.pooling;

import java.util.Optional;

/**
 * What can be pooled: what a factor does to an outcome.
 *
 * @param outcome in the common word
 * @param of what a count is out of; empty for a measure
 * @param factor in the common word
 */
record Question(String outcome, Optional<String> of, String factor) {
    boolean isCount() {
        return of.isPresent();
    }

    /** The outcome as it is told apart from others of its name. */
    String scale() {
        return isCount() ? "log-odds" : outcome;
    }
}
