package org.fairtray.photos;

/** Bytes that can't be used as a photo; the message says why, as the end of a sentence. */
public final class NoPhotoException extends RuntimeException {
    private static final long serialVersionUID = 1;

    NoPhotoException(String why, Throwable cause) {
        super(why, cause);
    }
}
