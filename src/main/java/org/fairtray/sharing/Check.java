package org.fairtray.sharing;

/**
 * One look at a pack.
 *
 * @param what was looked at
 * @param verdict {@link #AGREES}, {@link #DIFFERS} or {@link #CANNOT_BE_TOLD}
 * @param sentence what came of it
 */
public record Check(String what, String verdict, String sentence) {
    /** What the pack says is what comes out. */
    public static final String AGREES = "agrees";

    /** Something else comes out. */
    public static final String DIFFERS = "differs";

    /** Nobody can say from the pack, or not this program here. */
    public static final String CANNOT_BE_TOLD = "cannot be told";

    static Check agrees(String what, String sentence) {
        return new Check(what, AGREES, sentence);
    }

    static Check differs(String what, String sentence) {
        return new Check(what, DIFFERS, sentence);
    }

    static Check cannotBeTold(String what, String sentence) {
        return new Check(what, CANNOT_BE_TOLD, sentence);
    }
}
