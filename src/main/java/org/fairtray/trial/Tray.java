package org.fairtray.trial;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * One tray of the layout.
 *
 * @param code its label, which doesn't give the treatment away
 * @param stand where it stands
 * @param batches the number of its batch, by batch name
 * @param treatment what it gets, a level for every factor
 */
public record Tray(String code, Stand stand, Map<String, Integer> batches, Treatment treatment) {

    public Tray {
        batches = Collections.unmodifiableMap(new LinkedHashMap<>(batches));
    }

    /** The same tray at another place. */
    public Tray at(Stand elsewhere) {
        return new Tray(code, elsewhere, batches, treatment);
    }
}
