package org.fairtray.command;

import java.util.concurrent.CancellationException;
import java.util.function.Supplier;

/** Says that nothing was written where the program is stopped (Ctrl-C, kill) while it computes. */
final class StopNotice {
    private StopNotice() {}

    /**
     * Computes, and has something said if the program is stopped meanwhile.
     *
     * @throws CancellationException if it is being stopped already, so that it writes nothing after having said so
     */
    static <T> T during(Supplier<T> computation, Runnable notice) {
        var runtime = Runtime.getRuntime();
        var hook = new Thread(notice, "stopped");
        runtime.addShutdownHook(hook);
        try {
            return computation.get();
        } finally {
            letGo(runtime, hook);
        }
    }

    private static void letGo(Runtime runtime, Thread hook) {
        try {
            runtime.removeShutdownHook(hook);
        } catch (IllegalStateException stopping) {
            throw (CancellationException) new CancellationException("stopped").initCause(stopping);
        }
    }
}
