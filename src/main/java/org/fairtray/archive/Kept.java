package org.fairtray.archive;

/** What came of adding a trial. */
public enum Kept {
    /** It wasn't there, and is now. */
    ADDED,
    /** It was there already; nothing changed. */
    THERE,
    /** It was withdrawn, and stays so. */
    WITHDRAWN
}
