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
 */
public record Pack(String id, SortedMap<String, byte[]> files) {

    public Pack {
        files = Collections.unmodifiableSortedMap(new TreeMap<>(files));
    }

    /** The trial's title; it is that of plan.yaml. */
    public String title() {
        return description().title();
    }

    /** The code that packs of one farm share, where it was given. */
    public Optional<String> farm() {
        return description().farm();
    }

    /** The SPDX name of the licence under which it is shared, where it was given. */
    public Optional<String> licence() {
        return description().licence();
    }

    /** The version of the program that packed it. */
    public String version() {
        return description().version();
    }

    /** Whether a file is there. */
    public boolean has(String name) {
        return files.containsKey(name);
    }

    /** The trial that its files tell. */
    public TrialFiles trial() {
        return TrialFiles.of(files);
    }

    private Description description() {
        return Description.of(files.get(PackNames.DESCRIPTION));
    }
}
