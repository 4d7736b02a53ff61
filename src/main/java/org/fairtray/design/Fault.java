package org.fairtray.design;

import java.util.List;

/**
 * Something in a layout that keeps a trial from answering.
 *
 * @param kind what it is
 * @param factors the factors it touches
 * @param places the place levels it touches
 * @param sentence what is wrong, in a grower's words
 * @param remedy what would mend it
 */
public record Fault(Kind kind, List<String> factors, List<String> places, String sentence, String remedy) {

    /** The words of the audit. */
    public enum Kind {
        CONFOUNDED("confounded"),
        NO_REPLICATION("no replication"),
        FALSE_REPLICATION("false replication"),
        UNBALANCED("unbalanced"),
        PATTERNED("patterned"),
        RESTRICTION_BROKEN("restriction broken"),
        TOO_SMALL("too small"),
        NO_CONTROL("no control"),
        NOT_RANDOMISED("not randomised");

        private final String label;

        Kind(String label) {
            this.label = label;
        }

        /** The word in files. */
        public String label() {
            return label;
        }
    }

    public Fault {
        factors = List.copyOf(factors);
        places = List.copyOf(places);
    }
}
