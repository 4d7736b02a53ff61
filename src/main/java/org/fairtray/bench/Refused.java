package org.fairtray.bench;

/** Something that can't be done at this stage of a trial, in a sentence for the grower. */
public final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public Refused(String sentence) {
        super(sentence);
    }
}
