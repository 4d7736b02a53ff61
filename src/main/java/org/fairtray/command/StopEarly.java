package org.fairtray.command;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/** Lets a computation come to an early end and say what it has where the program is stopped (Ctrl-C, kill). */
final class StopEarly {
    /** Whoever stops the program doesn't wait for long. */
    private static final long SECONDS = 10;

    private StopEarly() {}

    /** @param work gets what says whether to come to an end, and prints what it has before it returns */
    static void during(Consumer<BooleanSupplier> work) {
        var runtime = Runtime.getRuntime();
        var stopped = new AtomicBoolean();
        var said = new CountDownLatch(1);
        var hook = new Thread(() -> stop(stopped, said), "stop");
        runtime.addShutdownHook(hook);
        try {
            work.accept(stopped::get);
        } finally {
            said.countDown();
            if (!stopped.get()) {
                runtime.removeShutdownHook(hook);
            }
        }
    }

    private static void stop(AtomicBoolean stopped, CountDownLatch said) {
        stopped.set(true);
        try {
            if (!said.await(SECONDS, TimeUnit.SECONDS)) {
                Thread.currentThread().interrupt();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
