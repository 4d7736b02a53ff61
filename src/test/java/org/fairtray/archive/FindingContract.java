package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What holds for searches and lists. */
interface FindingContract extends ArchiveContract {
    @Test
    default void listsByTitleThenByIdOverManyPages() {
        try (var archive = open()) {
            archive.addAll(
                    IntStream.range(0, 450).mapToObj(n -> Deposits.titled(n % 2 == 0 ? "B" : "a", "cress", n)),
                    false,
                    (t, k) -> {});
            var expected = Stream.of(1, 0)
                    .flatMap(odd -> IntStream.range(0, 450)
                            .filter(n -> n % 2 == odd)
                            .mapToObj(Deposits::id)
                            .sorted())
                    .toList();
            assertEquals(
                    expected,
                    archive.find(Search.all()).map(l -> l.trial().id()).toList());
            assertEquals(
                    expected,
                    archive.contributions(Search.all()).map(Brought::id).toList());
        }
    }

    @Test
    default void findsByCropFactorMediumTitleAndProtocol() {
        var none = List.<Condition>of();
        var cress = Deposits.of(
                "Soaking",
                "Garden cress",
                1,
                List.of(new Varied("Soaking time", Optional.of("h"), List.of("0", "4"))),
                List.of(new Condition("mat", "Jute, 5 mm")));
        var pea = Deposits.of(
                "Mats", "pea", 2, List.of(new Varied("mat", Optional.empty(), List.of("jute", "coir"))), none);
        var beet = Deposits.of(
                "Cover", "BEET", 3, List.of(new Varied("cover", Optional.of("kg"), List.of("0", "2"))), none);
        try (var archive = open()) {
            Stream.of(cress, pea, beet).forEach(archive::add);
            assertEquals(
                    List.of("Soaking"),
                    ArchiveContract.titles(archive, Search.all().crop("CRESS")));
            assertEquals(
                    List.of("Cover"),
                    ArchiveContract.titles(archive, Search.all().crop(" beet ")));
            assertEquals(
                    List.of("Soaking"),
                    ArchiveContract.titles(archive, Search.all().factor("soaking")));
            assertEquals(
                    List.of("Mats", "Soaking"),
                    ArchiveContract.titles(archive, Search.all().medium("JUTE")));
            assertEquals(
                    List.of("Mats"),
                    ArchiveContract.titles(archive, Search.all().medium("jute").factor("mat")));
            assertEquals(
                    List.of("Cover"),
                    ArchiveContract.titles(archive, Search.all().word("OVE")));
            assertEquals(List.of(), ArchiveContract.titles(archive, Search.all().word("cress")));
            assertEquals(
                    List.of("Mats"),
                    ArchiveContract.titles(
                            archive, Search.all().protocol(pea.trial().protocol())));
            assertEquals(
                    List.of(Deposits.contribution(2)),
                    archive.contributions(Search.all().medium("coir"))
                            .map(Brought::text)
                            .toList());
        }
    }

    @Test
    default void wordsOfPatternsStandForThemselves() {
        try (var archive = open()) {
            var titles = List.of(
                    "100 % jute",
                    "100 x jute", "a_b", "axb", "what!", "C:\\trials", "it's \"quoted\"; drop table pack");
            for (int n = 0; n < titles.size(); n++) {
                archive.add(Deposits.titled(titles.get(n), "cress", n));
            }
            assertEquals(
                    List.of("100 % jute"),
                    ArchiveContract.titles(archive, Search.all().word("0 %")));
            assertEquals(
                    List.of("a_b"), ArchiveContract.titles(archive, Search.all().word("A_B")));
            assertEquals(
                    List.of("what!"),
                    ArchiveContract.titles(archive, Search.all().word("!")));
            assertEquals(
                    List.of("C:\\trials"),
                    ArchiveContract.titles(archive, Search.all().word(":\\")));
            assertEquals(
                    List.of(titles.get(6)),
                    ArchiveContract.titles(archive, Search.all().word("'s \"QUOTED\";")));
            assertEquals(
                    titles.size(),
                    ArchiveContract.titles(archive, Search.all().word("")).size());
        }
    }

    /** Databases disagree on the small letters of other alphabets, so that neither is asked. */
    @Test
    default void findsWordsOfAllAlphabetsWhateverTheirCase() {
        try (var archive = open()) {
            var titles = List.of("KRESSE ÜBER NACHT", "ΡΌΚΑ", "РЕДИС", "I\u0307STANBUL", "Jalapen\u0303o", "豆苗 🌱");
            for (int n = 0; n < titles.size(); n++) {
                archive.add(Deposits.titled(titles.get(n), "cress", n));
            }
            assertEquals(
                    List.of(titles.get(0)),
                    ArchiveContract.titles(archive, Search.all().word("über")));
            assertEquals(
                    List.of(titles.get(1)),
                    ArchiveContract.titles(archive, Search.all().word("ρόκα")));
            assertEquals(
                    List.of(titles.get(2)),
                    ArchiveContract.titles(archive, Search.all().word("Редис")));
            assertEquals(
                    List.of(titles.get(4)),
                    ArchiveContract.titles(archive, Search.all().word("JALAPE\u00d1O")));
            assertEquals(
                    List.of(titles.get(5)),
                    ArchiveContract.titles(archive, Search.all().word("🌱")));
            assertEquals(
                    List.of("I\u0307STANBUL", "Jalapen\u0303o", "KRESSE ÜBER NACHT", "ΡΌΚΑ", "РЕДИС", "豆苗 🌱"),
                    ArchiveContract.titles(archive, Search.all()));
        }
    }

    @Test
    default void streamsHoldNothingWhereTheyEndHalfWay() {
        try (var archive = open()) {
            archive.addAll(IntStream.range(0, 300).mapToObj(Deposits::numbered), false, (t, k) -> {});
            for (int i = 0; i < 50; i++) {
                assertTrue(archive.find(Search.all()).findFirst().isPresent());
            }
            var names = new ArrayList<String>();
            archive.find(Search.all()).forEach(l -> {
                if (names.size() < 2) {
                    archive.withdraw(l.trial().id(), "while reading");
                }
                names.add(l.trial().title());
            });
            assertEquals(300, names.size());
            assertEquals(298, archive.find(Search.all()).count());
        }
    }

    /** Together the contributions are twice what this program may use. */
    @Test
    @Timeout(240)
    default void readsTwentyThousandContributionsInLittleMemory() throws IOException, InterruptedException {
        try (var archive = open()) {
            var contribution = "x".repeat(5_000);
            archive.addAll(
                    IntStream.range(0, 20_000)
                            .mapToObj(n -> Deposits.with(Deposits.numbered(n), contribution, Deposits.pack(n))),
                    false,
                    (t, k) -> {});
        }
        assertEquals("20000", OtherProgram.said(OtherProgram.start("-Xmx48m", "read", address())));
    }
}
