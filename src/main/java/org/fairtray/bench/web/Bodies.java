package org.fairtray.bench.web;

import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.util.Callback;
import org.eclipse.jetty.util.Promise;
import org.eclipse.jetty.util.thread.Invocable.InvocationType;

/** What is sent along with an ask: read while no thread waits for it, up to a size and a time. */
final class Bodies {
    private static final int SHORTEST_SECONDS = 10;
    /** A phone at the far end of a bad network sends more than this. */
    private static final int SLOWEST_BYTES_A_SECOND = 50_000;

    /** More than a phone's photo, and less than would keep the bench busy for nothing. */
    private static final int LARGEST_HEARD_OUT = 64 << 20;

    private Bodies() {}

    /**
     * Waits for the bytes on no thread; what follows runs on whichever thread the last of them came.
     *
     * @param away is told where they were too many, too slow, or cut off
     */
    static void read(Request request, int largest, Consumer<byte[]> all, Consumer<TurnedAway> away) {
        int seconds = SHORTEST_SECONDS + largest / SLOWEST_BYTES_A_SECOND;
        if (request.getLength() > largest) {
            hearOut(request, seconds, () -> away.accept(tooLarge(largest)));
            return;
        }
        var body = new CompletableFuture<byte[]>();
        // What follows is answered on the same thread, and may wait for the disk.
        Content.Source.asByteArrayAsync(
                request,
                largest,
                Promise.Invocable.from(InvocationType.BLOCKING, body::complete, body::completeExceptionally));
        var unused = body.orTimeout(seconds, TimeUnit.SECONDS).whenComplete((bytes, failure) -> {
            if (failure == null) {
                all.accept(bytes);
            } else {
                away.accept(turnedAway(failure, largest));
            }
        });
    }

    /** Lets a sender finish, and drops it all: who is cut off while sending never sees the answer, and sends again. */
    private static void hearOut(Request request, int seconds, Runnable then) {
        if (request.getLength() > LARGEST_HEARD_OUT) {
            then.run();
            return;
        }
        var all = new CompletableFuture<Void>();
        Content.Source.consumeAll(request, Callback.from(() -> all.complete(null), all::completeExceptionally));
        var unused = all.orTimeout(seconds, TimeUnit.SECONDS).whenComplete((nothing, failure) -> then.run());
    }

    private static TurnedAway turnedAway(Throwable failure, int largest) {
        if (failure instanceof TimeoutException) {
            return new TurnedAway(
                    Answer.refusal(408, "That came in too slowly. Try again nearer to the network's antenna.")
                            .with("Connection", "close"));
        }
        return failure instanceof IllegalStateException
                ? tooLarge(largest)
                : new TurnedAway(400, "The bench couldn't make sense of what was sent.");
    }

    private static TurnedAway tooLarge(int largest) {
        return new TurnedAway(413, "That is too large: more than " + largest + " bytes.");
    }
}
