package org.fairtray.packs;

import java.util.Collections;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import org.fairtray.files.TrialFiles;

/**
 * A trial as one file: what was read, and all of it sound as far as a pack can be by itself.
 *
 * @param id SHA-256 of datapackage.json, hexadecimal; since that holds the SHA-256 of every other file, it is one of all
 *     that the pack holds
 * @param files bytes by name, datapackage.json among them; they are not copied, so leave them as they are
 * @param title the trial's; it is that of plan.yaml
 * @param farm the code that packs of one farm share, where it was given
 * @param licence the SPDX name of the licence under which it is shared, where it was given
 * @param version of the program that packed it
 * @param trial what its files tell
 */
public record Pack(
        String id,
        SortedMap<String, byte[]> files,
        String title,
        Optional<String> farm,
        Optional<String> licence,
        String version,
        TrialFiles trial) {

    public Pack {
        files = Collections.unmodifiableSortedMap(new TreeMap<>(files));
    }

    /** Whether a file is there. */
    public boolean has(String name) {
        return files.containsKey(name);
    }
}
