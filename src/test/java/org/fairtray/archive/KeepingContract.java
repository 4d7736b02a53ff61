package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What holds for adding, giving back and withdrawing. */
interface KeepingContract extends ArchiveContract {
    @Test
    default void givesBackWhatWasAdded() {
        var deposit = Deposits.numbered(1);
        try (var archive = open()) {
            assertEquals(Kept.ADDED, archive.add(deposit));
        }
        try (var archive = Archive.existing(address())) {
            var listed = new Listed(deposit.trial(), NOON_AS_KEPT, Optional.empty());
            assertEquals(List.of(listed), archive.find(Search.all()).toList());
            assertEquals(listed, archive.trial(deposit.trial().id()));
            assertArrayEquals(deposit.pack(), archive.pack(deposit.trial().id()));
            assertEquals(
                    List.of(new Brought(
                            deposit.trial().id(),
                            deposit.trial().trialId(),
                            "Trial 1",
                            Optional.empty(),
                            1,
                            Deposits.contribution(1))),
                    archive.contributions(Search.all()).toList());
        }
    }

    @Test
    default void addingAgainChangesNothing() {
        var deposit = Deposits.numbered(1);
        try (var archive = open()) {
            archive.add(deposit);
            assertEquals(Kept.THERE, archive.add(Deposits.with(deposit, "other", new byte[] {1})));
            assertEquals(Kept.THERE, archive.bringBack(deposit));
            assertArrayEquals(deposit.pack(), archive.pack(deposit.trial().id()));
            assertEquals(
                    Deposits.contribution(1),
                    archive.contributions(Search.all())
                            .findFirst()
                            .orElseThrow()
                            .text());
        }
    }

    @Test
    default void keepsAllOfATrialOrNothing() {
        try (var archive = open()) {
            database().useHandle(handle -> handle.execute("drop table pack"));
            assertThrows(RuntimeException.class, () -> archive.add(Deposits.numbered(1)));
            assertEquals(List.of(), archive.find(Search.all()).toList());
        }
    }

    @Test
    default void addsManyAndTellsOfEach() {
        try (var archive = open()) {
            archive.add(Deposits.numbered(7));
            archive.add(Deposits.numbered(8));
            archive.withdraw(Deposits.id(8), "a mistake");
            var told = new TreeMap<Kept, Integer>();
            archive.addAll(
                    IntStream.range(0, 450).mapToObj(Deposits::numbered),
                    false,
                    (trial, kept) -> told.merge(kept, 1, Integer::sum));
            assertEquals("{ADDED=448, THERE=1, WITHDRAWN=1}", told.toString());
            assertEquals(449, archive.find(Search.all()).count());
            assertEquals(449, archive.contributions(Search.all()).count());
        }
    }

    @Test
    default void keepsHostileTextAsFarAsDatabasesCan() {
        try (var archive = open()) {
            archive.add(Deposits.titled("a\0b \ud800 c\n'; --", "\0", 1));
            var listed = archive.trial(Deposits.id(1));
            assertEquals("a\ufffdb \ufffd c\n'; --", listed.trial().title());
            assertEquals("\ufffd", listed.trial().crop());
            archive.add(Deposits.titled("long ".repeat(20_000), "x".repeat(20_000), 2));
            archive.add(Deposits.titled("\ud83c\udf31".repeat(3_000), "🌱", 3));
            assertEquals(100_000, archive.trial(Deposits.id(2)).trial().title().length());
            assertEquals(3, archive.find(Search.all()).count());
        }
    }

    @Test
    default void givesPacksBackWhateverTheyHold() {
        var zeros = new byte[300_000];
        var noise = new byte[300_000];
        for (int i = 0; i < noise.length; i++) {
            noise[i] = (byte) (((i * 0x9E3779B1L) >>> 13) ^ ((i * 0x85EBCA77L) >>> 5));
        }
        try (var archive = open()) {
            archive.add(Deposits.with(Deposits.numbered(1), "", zeros));
            archive.add(Deposits.with(Deposits.numbered(2), "", noise));
            archive.add(Deposits.with(Deposits.numbered(3), "", new byte[0]));
            assertArrayEquals(zeros, archive.pack(Deposits.id(1)));
            assertArrayEquals(noise, archive.pack(Deposits.id(2)));
            assertArrayEquals(new byte[0], archive.pack(Deposits.id(3)));
        }
        int stored = database()
                .withHandle(handle -> handle.createQuery(
                                "select length(content) from pack where packing = 'gzip' and pack_id = :id")
                        .bind("id", Deposits.id(1))
                        .mapTo(int.class)
                        .one());
        assertTrue(stored < 2000, "300,000 zeros take " + stored + " bytes");
    }

    @Test
    default void aWithdrawnTrialIsGoneButForOneLine() {
        try (var archive = open()) {
            archive.add(Deposits.numbered(2));
            archive.add(Deposits.numbered(3));
            assertEquals(
                    "Trial 2",
                    archive.withdraw(Deposits.id(2), "the scale was wrong")
                            .trial()
                            .title());
            assertEquals(List.of("Trial 3"), ArchiveContract.titles(archive, Search.all()));
            assertEquals(
                    List.of("Trial 3"),
                    archive.contributions(Search.all()).map(Brought::title).toList());
            var line = archive.find(Search.all().ofWithdrawn()).toList();
            assertEquals(1, line.size());
            assertEquals(
                    Optional.of(new Listed.Withdrawal(NOON_AS_KEPT, "the scale was wrong")),
                    line.get(0).withdrawal());
            assertEquals(Optional.empty(), line.get(0).trial().farm());
            assertEquals(List.of(), line.get(0).trial().factors());
            var gone = parsed().shown() + ": found that " + Deposits.id(2)
                    + " was withdrawn on 2026-11-28 ('the scale was wrong'); expected a trial that is there";
            assertEquals(gone, ArchiveContract.refusal(() -> archive.pack(Deposits.id(2))));
            assertEquals(gone, ArchiveContract.refusal(() -> archive.withdraw(Deposits.id(2), "again")));
        }
        for (var table : List.of("factor", "word", "contribution", "pack")) {
            assertEquals(
                    List.of(Deposits.id(3)),
                    database()
                            .withHandle(h -> h.createQuery("select distinct pack_id from " + table)
                                    .mapTo(String.class)
                                    .list()));
        }
    }

    @Test
    default void aWithdrawnTrialComesBackOnlyWhenAsked() {
        try (var archive = open()) {
            archive.add(Deposits.numbered(2));
            archive.withdraw(Deposits.id(2), "a mistake");
            assertEquals(Kept.WITHDRAWN, archive.add(Deposits.numbered(2)));
            assertEquals(List.of(), ArchiveContract.titles(archive, Search.all()));
            assertEquals(Kept.ADDED, archive.bringBack(Deposits.numbered(2)));
            assertEquals(
                    new Listed(Deposits.numbered(2).trial(), NOON_AS_KEPT, Optional.empty()),
                    archive.trial(Deposits.id(2)));
            assertArrayEquals(Deposits.pack(2), archive.pack(Deposits.id(2)));
        }
    }

    @Test
    default void idsMayBeGivenByTheirBeginnings() {
        var one = "abcdef0" + "1".repeat(57);
        var other = "abcdef1" + "1".repeat(57);
        try (var archive = open()) {
            archive.add(withId(Deposits.titled("One", "pea", 1), one));
            archive.add(withId(Deposits.titled("Other", "pea", 2), other));
            assertEquals(one, archive.trial(" ABCDEF0 ").trial().id());
            assertArrayEquals(Deposits.pack(2), archive.pack("abcdef11"));
            assertEquals(
                    parsed().shown()
                            + ": found several trials whose ids begin with abcdef; expected more letters of one of "
                            + one + " ('One'), " + other + " ('Other')",
                    ArchiveContract.refusal(() -> archive.withdraw("abcdef", "why")));
            assertEquals(
                    parsed().shown()
                            + ": found no shared trial 'abcdef2'; expected one that fairtray archive list shows",
                    ArchiveContract.refusal(() -> archive.pack("abcdef2")));
            for (var wrong : List.of("abcde", "abcdeg", "", "%%%%%%", "a".repeat(65))) {
                assertTrue(
                        ArchiveContract.refusal(() -> archive.trial(wrong))
                                .contains("expected the first 6 letters of an id"),
                        wrong);
            }
        }
    }

    private static Deposit withId(Deposit deposit, String id) {
        var t = deposit.trial();
        var trial = new SharedTrial(
                id,
                t.trialId(),
                t.title(),
                t.crop(),
                t.question(),
                t.trays(),
                t.outcome(),
                t.sealed(),
                t.version(),
                t.protocol(),
                t.farm(),
                t.factors(),
                t.conditions());
        return new Deposit(trial, 1, deposit.contribution(), deposit.pack());
    }
}
