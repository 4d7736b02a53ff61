package org.fairtray.sharing;

import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;

/** Lets a stranger's pack keep this computer busy for so long and no longer. */
final class Deadline {
    private final Duration most;

    Deadline(Duration most) {
        this.most = most;
    }

    /** What comes of a look at a pack; empty where it took too long. */
    <T> Optional<T> within(Callable<T> look) {
        var worker = Executors.newSingleThreadExecutor(Deadline::daemon);
        var looking = worker.submit(look);
        try {
            return Optional.of(looking.get(most.toMillis(), TimeUnit.MILLISECONDS));
        } catch (TimeoutException e) {
            return Optional.empty();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw (CancellationException) new CancellationException("stopped while looking at a pack").initCause(e);
        } catch (ExecutionException e) {
            if (e.getCause() instanceof RuntimeException unchecked) {
                throw unchecked;
            }
            throw new IllegalStateException("a look at a pack failed: " + e.getCause(), e.getCause());
        } finally {
            worker.shutdownNow();
        }
    }

    /** What is said of a look that took too long. */
    Check tooLong(String what) {
        return Check.cannotBeTold(
                what, "To work it out again takes longer than " + most.toMinutes() + " minutes on this computer.");
    }

    private static Thread daemon(Runnable work) {
        var thread = new Thread(work, "verification");
        thread.setDaemon(true);
        return thread;
    }
}
