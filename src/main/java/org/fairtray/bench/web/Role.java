package org.fairtray.bench.web;

import java.util.Locale;

/** What someone may do, each more than the one before. */
enum Role {
    /** Look at everything that isn't sealed. */
    LOOK,
    /** Count and take photos. */
    COUNT,
    /** All: whoever sits at the computer on which the bench runs. */
    HOST;

    boolean may(Role needed) {
        return compareTo(needed) >= 0;
    }

    String word() {
        return name().toLowerCase(Locale.ROOT);
    }
}
