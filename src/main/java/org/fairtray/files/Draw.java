package org.fairtray.files;

import java.util.List;
import org.fairtray.trial.Seal;

/**
 * How a layout was drawn, to be sealed with it.
 *
 * @param seed the seed of the draw
 * @param generator the name of the random generator
 * @param restrictions restrictions on the draw, in words; none for a plain one
 * @param time when it was drawn, ISO 8601
 * @param version the version that drew it
 */
public record Draw(long seed, String generator, List<String> restrictions, String time, String version) {

    public Draw {
        restrictions = List.copyOf(restrictions);
    }

    /** The seal of a plan and the layout drawn for it, by their SHA-256. */
    Seal seal(String planSha256, String layoutSha256) {
        return new Seal(planSha256, layoutSha256, seed, generator, restrictions, time, version);
    }
}
