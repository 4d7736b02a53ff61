package org.fairtray.journal;

/** Something couldn't be written to disk, and nothing of it was kept. */
public final class NotKeptException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    public NotKeptException(String message, Throwable cause) {
        super(message, cause);
    }
}
