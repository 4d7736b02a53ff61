package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;

/** The same work on several things that have nothing to do with each other, on as many cores as there are. */
public final class InParallel {
    private InParallel() {}

    /**
     * What each thing gives, in their order, whatever the number of cores.
     *
     * @throws CancellationException if this thread is interrupted, which it then still is; the work is interrupted too
     */
    public static <T, R> List<R> each(List<T> things, Function<T, R> work) {
        if (things.size() < 2) {
            return things.stream().map(work).toList();
        }
        int threads = Math.min(things.size(), Runtime.getRuntime().availableProcessors());
        var workers = Executors.newFixedThreadPool(threads, InParallel::daemon);
        try {
            var under = new ArrayList<Future<R>>();
            things.forEach(thing -> under.add(workers.submit(() -> work.apply(thing))));
            var results = new ArrayList<R>();
            for (var one : under) {
                results.add(one.get());
            }
            return results;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            var cancelled = new CancellationException("interrupted while others worked");
            cancelled.initCause(e);
            throw cancelled;
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException unchecked) {
                throw unchecked;
            }
            throw new IllegalStateException("a piece of work failed: " + e.getCause(), e.getCause());
        } finally {
            workers.shutdownNow();
        }
    }

    private static Thread daemon(Runnable work) {
        var thread = new Thread(work, "worker");
        thread.setDaemon(true);
        return thread;
    }
}
