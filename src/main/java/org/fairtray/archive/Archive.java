package org.fairtray.archive;

import java.io.IOException;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Function;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.fairtray.archive.Writing.Ready;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Wording;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.Jdbi;

/**
 * The shared trials of a network of growers, in a file or on a server. Any number of threads and programs may use it at
 * once. Whatever the database refuses is thrown as {@link ProblemsException}.
 */
public final class Archive implements AutoCloseable {
    private static final Duration PATIENCE = Duration.ofSeconds(60);
    private static final int BATCH = 200;

    /** Packs held in memory for one transaction. */
    private static final long BATCH_BYTES = 32L << 20;

    /** Held so that it stays silent: what goes wrong is said by us. */
    private static final Logger DRIVER = Logger.getLogger("org.postgresql");

    private final String shown;
    private final boolean file;
    private final Connections connections;
    private final Jdbi jdbi;
    private final Clock clock;

    private Archive(Address address, Duration patience, Clock clock, boolean mayBeNew) {
        DRIVER.setLevel(Level.OFF);
        this.shown = address.shown();
        this.file = address instanceof FileAddress;
        this.clock = clock;
        var source = address.source(patience);
        this.connections = new Connections(source);
        this.jdbi = Jdbi.create(connections);
        Refusal.orSaid(shown, () -> {
            new Schema(address, source).prepare(mayBeNew);
            return true;
        });
    }

    /** Opens an archive, and makes it where there is none: a file's name, or {@code postgresql://USER@HOST/DATABASE}. */
    public static Archive open(String address) {
        return open(address, PATIENCE, Clock.systemUTC());
    }

    /** Opens an archive that is there. */
    public static Archive existing(String address) {
        return new Archive(Address.of(address, System.getenv()), PATIENCE, Clock.systemUTC(), false);
    }

    /** @param patience how long others who are writing are waited for */
    static Archive open(String address, Duration patience, Clock clock) {
        return new Archive(Address.of(address, System.getenv()), patience, clock, true);
    }

    /** Adds a trial, unless it is there; one that was withdrawn stays so. */
    public Kept add(Deposit deposit) {
        return add(deposit, false);
    }

    /** Adds a trial even if it was withdrawn. */
    public Kept bringBack(Deposit deposit) {
        return add(deposit, true);
    }

    private Kept add(Deposit deposit, boolean bringBack) {
        var ready = Ready.of(deposit);
        return write(handle -> new Writing(handle).add(List.of(ready), now(), bringBack))
                .get(0);
    }

    /**
     * Adds many trials, some at a time.
     *
     * @param bringBack whether those that were withdrawn are added again
     * @param told hears what came of each, once it is safe
     */
    public void addAll(Stream<Deposit> deposits, boolean bringBack, BiConsumer<SharedTrial, Kept> told) {
        var batch = new ArrayList<Ready>();
        long bytes = 0;
        for (var each : (Iterable<Deposit>) deposits::iterator) {
            var ready = Ready.of(each);
            batch.add(ready);
            bytes += ready.packed().length;
            if (batch.size() == BATCH || bytes > BATCH_BYTES) {
                addBatch(batch, bringBack, told);
                batch.clear();
                bytes = 0;
            }
        }
        addBatch(batch, bringBack, told);
    }

    /** In the order of ids: two who add the same ones in another order would wait for each other forever. */
    private void addBatch(List<Ready> batch, boolean bringBack, BiConsumer<SharedTrial, Kept> told) {
        if (batch.isEmpty()) {
            return;
        }
        batch.sort(Comparator.comparing(r -> r.deposit().trial().id()));
        var kept = write(handle -> new Writing(handle).add(batch, now(), bringBack));
        for (int i = 0; i < kept.size(); i++) {
            told.accept(batch.get(i).deposit().trial(), kept.get(i));
        }
    }

    /** What would come of adding a trial; empty where it would be added. */
    public Optional<Kept> known(String id) {
        return read(handle -> new Reading(handle).known(id));
    }

    /** The trials that a search finds, by title; those added meanwhile may be among them. */
    public Stream<Listed> find(Search search) {
        return Pages.stream(after -> read(handle -> new Reading(handle).trials(search, after)));
    }

    /** What the trials that a search finds bring to a pooled analysis, by title. */
    public Stream<Brought> contributions(Search search) {
        return Pages.stream(after -> read(handle -> new Reading(handle).contributions(search, after)));
    }

    /**
     * One trial, withdrawn or not.
     *
     * @param typed its id, or as much of its beginning as no other has
     */
    public Listed trial(String typed) {
        var beginning = Id.tidy(typed);
        if (!Id.isBeginning(beginning)) {
            throw Refusal.because(
                    shown,
                    "the id " + Wording.quote(typed),
                    "the first " + Id.FEWEST + " letters of an id or more, from 0 to 9 and a to f");
        }
        var found = read(handle -> new Reading(handle).beginning(beginning));
        if (found.isEmpty()) {
            throw Refusal.because(
                    shown, "no shared trial " + Wording.quote(typed), "one that fairtray archive list shows");
        }
        if (found.size() > 1) {
            throw Refusal.because(
                    shown,
                    "several trials whose ids begin with " + beginning,
                    "more letters of one of "
                            + found.stream()
                                    .map(l -> l.trial().id() + " ("
                                            + Wording.quote(l.trial().title()) + ")")
                                    .collect(Collectors.joining(", ")));
        }
        return found.get(0);
    }

    /** The pack of a trial, as it was added. */
    public byte[] pack(String typed) {
        var listed = trial(typed);
        listed.withdrawal().ifPresent(w -> {
            throw gone(listed, w);
        });
        // Between two questions somebody may withdraw it.
        var stored = read(handle -> new Reading(handle).pack(listed.trial().id()))
                .orElseThrow(() -> Refusal.because(
                        shown, "that " + listed.trial().id() + " was just withdrawn", "a trial that is there"));
        try {
            return stored.packing().unpacked(stored.content());
        } catch (IOException e) {
            throw Refusal.because(
                    shown, "damaged bytes of " + listed.trial().id(), "a whole archive, from your copies");
        }
    }

    private ProblemsException gone(Listed listed, Listed.Withdrawal withdrawal) {
        return Refusal.because(
                shown,
                "that " + listed.trial().id() + " was withdrawn on "
                        + withdrawal.at().toString().substring(0, 10) + " (" + Wording.quote(withdrawal.reason()) + ")",
                "a trial that is there");
    }

    /**
     * Takes a trial back. Its pack, what it brings and its words are deleted; a line that it was there stays.
     *
     * @return the trial as it was
     */
    public Listed withdraw(String typed, String reason) {
        var listed = trial(typed);
        boolean first =
                write(handle -> new Writing(handle).withdraw(listed.trial().id(), Words.storable(reason), now()));
        if (!first) {
            var now = trial(listed.trial().id());
            throw gone(now, now.withdrawal().orElseThrow());
        }
        if (file) {
            // The log beside the file still holds what was deleted, until it is taken in.
            read(handle -> handle.execute("pragma wal_checkpoint(truncate)"));
        }
        return listed;
    }

    private String now() {
        return clock.instant().truncatedTo(ChronoUnit.SECONDS).toString();
    }

    private <T> T write(Function<Handle, T> asked) {
        return Refusal.orSaid(shown, () -> jdbi.inTransaction(asked::apply));
    }

    private <T> T read(Function<Handle, T> asked) {
        return Refusal.orSaid(shown, () -> jdbi.withHandle(asked::apply));
    }

    @Override
    public void close() {
        try {
            connections.close();
        } catch (SQLException e) {
            // Everything is written already; there is nothing left to lose.
            return;
        }
    }
}
