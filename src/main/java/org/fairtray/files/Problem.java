package org.fairtray.files;

import java.util.Optional;

/**
 * Something wrong with a file of the trial, in words for the grower.
 *
 * @param file the file's name, or the folder's path where it is the folder that is wrong
 * @param line the line, from 1; 0 for the whole file
 * @param found what stands there
 * @param expected what should
 * @param nearest the valid name that was probably meant
 */
public record Problem(String file, int line, String found, String expected, Optional<String> nearest) {

    /** All of it in one line, such as {@code plan.yaml, line 7: found unknown key 'lvels'; expected ...; nearest: levels}. */
    public String describe() {
        return file
                + (line > 0 ? ", line " + line : "")
                + ": found " + found
                + "; expected " + expected
                + nearest.map(name -> "; nearest: " + Wording.visible(name)).orElse("");
    }
}
