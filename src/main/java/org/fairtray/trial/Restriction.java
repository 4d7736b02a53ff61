package org.fairtray.trial;

import java.util.Optional;

/**
 * What a layout drawn by chance must keep to besides the structure of the place.
 *
 * @param kind what is asked
 * @param of a factor's name, or {@link #TREATMENT} for all that a tray gets
 * @param over the place level over whose numbers it is shared out; for {@link Kind#EVEN} alone
 */
public record Restriction(Kind kind, String of, Optional<String> over) {
    /** What a tray gets as a whole; a factor of this name goes before it. */
    public static final String TREATMENT = "treatment";

    /** What can be asked; {@code key} is its word in the plan. */
    public enum Kind {
        /** Like ones never lie side by side. */
        APART("keep_apart"),
        /** Each comes equally often, to within one, at every number of a place level. */
        EVEN("even_over"),
        /** Each comes equally often, to within one, at the edges. */
        EDGES("even_at_edges");

        private final String key;

        Kind(String key) {
            this.key = key;
        }

        /** The word in the plan. */
        public String key() {
            return key;
        }
    }

    /** @throws IllegalArgumentException if a level to share out over is missing, or given where none is needed */
    public Restriction {
        if (over.isPresent() != (kind == Kind.EVEN)) {
            throw new IllegalArgumentException(kind.key() + " of " + of + " over " + over
                    + ": expected a place level for even_over and for nothing else");
        }
    }

    /** As the plan writes it, such as {@code even_over: position, of: treatment}. */
    public String text() {
        return over.map(l -> kind.key() + ": " + l + ", of: " + of).orElse(kind.key() + ": " + of);
    }

    /** In words, within a sentence. */
    public String words() {
        String each = of.equals(TREATMENT) ? "each treatment" : "each level of " + of;
        return switch (kind) {
            case APART -> "the same " + of + " never lies side by side";
            case EVEN -> each + " comes equally often, to within one, at every " + over.orElseThrow();
            case EDGES -> each + " comes equally often, to within one, at the edges";
        };
    }
}
