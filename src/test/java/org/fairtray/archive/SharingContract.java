package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What holds for those who come at once, and for archives of other versions. */
interface SharingContract extends ArchiveContract {
    @Test
    default void anArchiveThatIsntThereIsNotMadeByReading() {
        assertEquals(
                parsed().shown() + ": found no archive there; expected one that fairtray archive add has made",
                ArchiveContract.refusal(() -> Archive.existing(address())));
    }

    @Test
    default void anOlderArchiveIsBroughtUpToDate() {
        Schema.migrate(parsed(), parsed().source(Duration.ofSeconds(5)), "1");
        database()
                .useHandle(
                        handle -> handle.execute(
                                "insert into shared_trial (id, trial_id, title, title_sought, crop,"
                                        + " crop_sought, question, trays, outcome, sealed, version, protocol, added) values ('"
                                        + Deposits.id(1)
                                        + "', 'x', 'Old', 'old', 'pea', 'pea', '', 4, 'up', true, '0.1.0', 'p', '2026-11-01T00:00:00Z')"));
        try (var archive = open()) {
            assertEquals(
                    List.of("Old"), ArchiveContract.titles(archive, Search.all().crop("pea")));
        }
        assertEquals("2", version());
    }

    @Test
    default void theNewestMigrationIsTheOneThatTheProgramKnows() {
        try (var archive = open()) {
            assertEquals(Integer.toString(Schema.NEWEST), version());
            assertEquals(List.of(), archive.find(Search.all()).toList());
        }
        Schema.migrate(parsed(), parsed().source(Duration.ofSeconds(5)), "latest");
        assertEquals(Integer.toString(Schema.NEWEST), version());
    }

    private String version() {
        return database()
                .withHandle(handle -> handle.createQuery(
                                "select version from archive_history order by installed_rank desc limit 1")
                        .mapTo(String.class)
                        .one());
    }

    @Test
    default void anArchiveOfANewerVersionIsRefused() {
        open().close();
        database().useHandle(handle -> handle.execute("update archive_history set version = '3' where version = '2'"));
        assertEquals(
                parsed().shown()
                        + ": found an archive that a newer version of fairtray made; expected that version, or a"
                        + " newer one, to work with it",
                ArchiveContract.refusal(this::open));
    }

    @Test
    default void aDatabaseOfSomethingElseIsLeftAlone() {
        database().useHandle(handle -> handle.execute("create table customers (name text)"));
        assertEquals(
                parsed().shown() + ": found a database of something else; expected an archive of shared trials, or a"
                        + " database without tables",
                ArchiveContract.refusal(this::open));
    }

    @Test
    default void manyThreadsAddEachTrialOnce() throws InterruptedException, ExecutionException {
        var threads = Executors.newFixedThreadPool(8);
        try (var archive = open()) {
            var results = new ArrayList<Future<Integer>>();
            for (int t = 0; t < 8; t++) {
                int thread = t;
                results.add(threads.submit(() -> addSome(archive, thread)));
            }
            int added = 0;
            for (var result : results) {
                added += result.get();
            }
            assertEquals(120, added);
            assertEquals(120, archive.find(Search.all()).count());
        } finally {
            threads.shutdownNow();
        }
    }

    /** The same trials by each thread: forwards or backwards, one by one or together. */
    private static int addSome(Archive archive, int thread) {
        var deposits = IntStream.range(0, 120).mapToObj(n -> Deposits.numbered(thread % 2 == 0 ? n : 119 - n));
        var added = new AtomicInteger();
        if (thread < 4) {
            deposits.forEach(d -> added.addAndGet(archive.add(d) == Kept.ADDED ? 1 : 0));
        } else {
            archive.addAll(deposits, false, (trial, kept) -> added.addAndGet(kept == Kept.ADDED ? 1 : 0));
        }
        return added.get();
    }

    @Test
    @Timeout(120)
    default void manyProgramsMakeTheArchiveTogetherAndAddEachTrialOnce() throws IOException, InterruptedException {
        var programs = new ArrayList<Process>();
        for (int n = 0; n < 4; n++) {
            programs.add(OtherProgram.start("-Xmx256m", "add", address(), "300"));
        }
        var added = 0;
        for (var program : programs) {
            added += Integer.parseInt(OtherProgram.said(program));
        }
        assertEquals(300, added);
        try (var archive = Archive.existing(address())) {
            assertEquals(300, archive.find(Search.all()).count());
            assertEquals(300, archive.contributions(Search.all()).count());
            assertArrayEquals(Deposits.pack(299), archive.pack(Deposits.id(299)));
        }
    }

    @Test
    @Timeout(120)
    default void manyAtOnceBringAnOlderArchiveUpToDate() throws InterruptedException, ExecutionException {
        Schema.migrate(parsed(), parsed().source(Duration.ofSeconds(5)), "1");
        var threads = Executors.newFixedThreadPool(8);
        var together = new CyclicBarrier(8);
        try {
            var results = new ArrayList<Future<Kept>>();
            for (int n = 0; n < 8; n++) {
                results.add(threads.submit(() -> {
                    together.await();
                    try (var archive = open()) {
                        return archive.add(Deposits.numbered(1));
                    }
                }));
            }
            int added = 0;
            for (var result : results) {
                added += result.get() == Kept.ADDED ? 1 : 0;
            }
            assertEquals(1, added);
        } finally {
            threads.shutdownNow();
        }
    }

    /** What a rude neighbour says to the database to keep all others from writing. */
    String lock();

    @Test
    default void othersWhoWriteTooLongAreToldOf() {
        try (var archive = Archive.open(address(), Duration.ofMillis(300), NOON)) {
            archive.add(Deposits.numbered(1));
            database().useTransaction(rude -> {
                rude.execute(lock());
                assertEquals(
                        parsed().shown()
                                + ": found others who write to it for too long; expected a quieter moment; try again",
                        ArchiveContract.refusal(() -> archive.add(Deposits.numbered(2))));
                assertEquals(List.of("Trial 1"), ArchiveContract.titles(archive, Search.all()));
            });
            assertEquals(Kept.ADDED, archive.add(Deposits.numbered(2)));
        }
    }
}
