package org.fairtray.report;

import org.fairtray.trial.ShownPhoto;

/**
 * A photo for the report.
 *
 * @param jpeg the picture; none where it can't be shown
 * @param missing why it can't be shown, as the end of a sentence; empty where it can
 */
public record Picture(ShownPhoto photo, byte[] jpeg, String missing) {
    public Picture {
        jpeg = jpeg.clone();
    }

    /** A photo that can be shown. */
    public static Picture of(ShownPhoto photo, byte[] jpeg) {
        return new Picture(photo, jpeg, "");
    }

    /** A photo that can't be shown. */
    public static Picture missing(ShownPhoto photo, String why) {
        return new Picture(photo, new byte[0], why);
    }

    @Override
    public byte[] jpeg() {
        return jpeg.clone();
    }
}
