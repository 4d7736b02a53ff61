package org.fairtray.bench;

/** How far a trial is. */
public enum Stage {
    /** There is a plan, and no layout yet. */
    PLANNED("planned"),
    /** Laid out; nothing is counted yet. */
    LAID("laid"),
    /** Something is counted. */
    COUNTING("counting"),
    /** The seal was opened. */
    OPENED("opened"),
    /** Something is wrong with its files. */
    BROKEN("broken");

    private final String word;

    Stage(String word) {
        this.word = word;
    }

    /** The word for it in answers. */
    public String word() {
        return word;
    }
}
