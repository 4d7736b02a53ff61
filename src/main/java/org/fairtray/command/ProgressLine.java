package org.fairtray.command;

import java.io.PrintWriter;

/**
 * One line that says how far a long computation is, written over again and again; nothing at all off a terminal. Any thread
 * may write it.
 */
final class ProgressLine {
    private final PrintWriter to;
    private final boolean terminal;
    private int width;

    /** @param terminal whether someone is looking on */
    ProgressLine(PrintWriter to, boolean terminal) {
        this.to = to;
        this.terminal = terminal;
    }

    /** Writes over what was shown before. */
    synchronized void show(String text) {
        if (terminal) {
            to.print("\r" + text + " ".repeat(Math.max(0, width - text.length())));
            to.flush();
            width = text.length();
        }
    }

    /** Leaves an empty line to write on. */
    synchronized void clear() {
        if (width > 0) {
            to.print("\r" + " ".repeat(width) + "\r");
            to.flush();
            width = 0;
        }
    }
}
