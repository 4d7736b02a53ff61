package org.fairtray.network;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.NoSuchElementException;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.function.Function;

/** What is made of many things, in their order, by two threads that are only a few things ahead of whoever asks. */
final class Ahead<A, B> implements Iterator<B>, AutoCloseable {
    private static final int THREADS = 2;
    private static final int MOST = 4;

    private final ExecutorService threads = Executors.newFixedThreadPool(THREADS);
    private final Deque<Future<B>> begun = new ArrayDeque<>();
    private final Iterator<A> things;
    private final Function<A, B> work;

    Ahead(Iterator<A> things, Function<A, B> work) {
        this.things = things;
        this.work = work;
    }

    @Override
    public boolean hasNext() {
        while (begun.size() < MOST && things.hasNext()) {
            var thing = things.next();
            begun.add(threads.submit(() -> work.apply(thing)));
        }
        return !begun.isEmpty();
    }

    @Override
    public B next() {
        if (!hasNext()) {
            throw new NoSuchElementException("all is done");
        }
        try {
            return begun.remove().get();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new CancellationException("interrupted while packs were read");
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException failure) {
                throw failure;
            }
            throw new IllegalStateException("a pack couldn't be worked out", e.getCause());
        }
    }

    @Override
    public void close() {
        threads.shutdownNow();
    }
}
