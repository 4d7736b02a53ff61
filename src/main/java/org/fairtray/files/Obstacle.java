package org.fairtray.files;

import java.io.IOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;

/** What stood in the way of reading or writing, in words. */
final class Obstacle {
    private Obstacle() {}

    static String of(IOException e) {
        if (e instanceof AccessDeniedException) {
            return "no permission";
        }
        if (e instanceof FileAlreadyExistsException) {
            return "a file has this name";
        }
        if (e instanceof FileSystemException system && system.getReason() != null) {
            return system.getReason();
        }
        return e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
    }
}
