package org.fairtray.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.imageio.ImageIO;
import org.fairtray.files.ProblemsException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is kept of counts, what is refused, and how readings.csv follows and comes back. */
class CountingTest {
    private static final Clock NOON = Clock.fixed(Instant.parse("2026-03-04T12:00:00Z"), ZoneOffset.UTC);
    private static final String PLAN = BeetTrial.PLAN + """
            counting: {days: [1, 2, 3], frames_per_tray: 2, seeds_per_frame: 50}
            outcomes:
              - {name: through, kind: count, of: germinated, day: 3}
              - {name: height_mm, kind: measure, day: 3}
            """;

    @TempDir
    Path folder;

    private TrialDesk desk;
    private TrialBench bench;
    private int ids;

    @BeforeEach
    void layOut() {
        BeetTrial.layOut(folder, PLAN);
        desk = new TrialDesk(folder, NOON);
        bench = desk.bench();
    }

    @AfterEach
    void close() {
        desk.close();
    }

    private Offer offer(String tray, int day, int frame, long seen, Map<String, String> values) {
        ids++;
        return new Offer("count-000" + ids, tray, day, frame, seen, values, null, null, null, null, false);
    }

    private Result count(String tray, int day, String germinated, String through) {
        long last = bench.counts(0).last();
        return bench.count(
                        List.of(offer(tray, day, 1, last, Map.of("germinated", germinated, "through", through))), "Ada")
                .get(0);
    }

    private String readings() throws Exception {
        bench.writeReadings();
        return Files.readString(folder.resolve("readings.csv"));
    }

    @Test
    void aKeptCountStandsInReadings() throws Exception {
        assertEquals("kept", count("T01", 2, "30", "12").status());
        assertEquals("""
                tray,day,frame,germinated,through,height_mm,note,by,time
                T01,2,1,30,12,,,Ada,2026-03-04T12:00:00
                """, readings());
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    T01 | 2 | 51 | 1  | germinated 51 on day 2 can't be right: expected at most 50, the seeds sown.
                    T01 | 2 | 20 | 21 | through 21 on day 2 can't be right: expected at most 20, as many as germinated.
                    T01 | 2 | 1.5| 1  | '1.5' in column germinated can't be right: expected a whole number, 0 or more.
                    T01 | 2 | -1 | 1  | '-1' in column germinated can't be right: expected a whole number, 0 or more.
                    T99 | 2 | 1  | 1  | There is no tray 'T99' in this trial.
                    T01 | 5 | 1  | 1  | The plan doesn't count on day 5.
                    """)
    void whatCannotBeIsRefusedWithTheReason(String tray, int day, String germinated, String through, String reason) {
        var result = count(tray, day, germinated, through);
        assertEquals("refused", result.status());
        assertEquals(reason, result.reason());
        assertEquals(List.of(), bench.counts(0).cells());
    }

    @Test
    void aCountMayNeitherFallNorLiftAnEarlierDayAboveALaterOne() {
        assertEquals("kept", count("T01", 2, "20", "9").status());
        assertEquals(
                "germinated 18 on day 3 can't be right: expected 20 or more, as on day 2: counts are cumulative and can't"
                        + " fall.",
                count("T01", 3, "18", "9").reason());
        assertEquals(
                "germinated 20 on day 2 can't be right: expected 25 or more, as on day 1: counts are cumulative and can't"
                        + " fall.",
                count("T01", 1, "25", "9").reason());
        assertEquals("kept", count("T01", 2, "18", "9").status(), "the earlier day put right");
        assertEquals("kept", count("T01", 3, "18", "9").status());
    }

    @Test
    void strangeOffersAreRefused() {
        var tray = "T01";
        assertEquals("There is no frame 3 in a tray.", refusal(offer(tray, 2, 3, 0, Map.of())));
        assertEquals("The plan doesn't ask for 'tray'.", refusal(offer(tray, 2, 1, 0, Map.of("tray", "T02"))));
        assertEquals(
                "The count is based on one that isn't here. Load the page anew.",
                refusal(offer(tray, 2, 1, 99, Map.of())));
        var noId = new Offer("x", tray, 2, 1, 0, Map.of(), null, null, null, null, false);
        assertEquals("The count has no proper id.", refusal(noId));
        var note = new Offer("count-0001", tray, 2, 1, 0, Map.of(), "x".repeat(501), null, null, null, false);
        assertEquals("The note has 501 letters; 500 are the most.", refusal(note));
    }

    private String refusal(Offer offer) {
        var result = bench.count(List.of(offer), "Ada").get(0);
        assertEquals("refused", result.status());
        return result.reason();
    }

    @Test
    void anEditInASpreadsheetComesBack() throws Exception {
        count("T01", 2, "30", "12");
        count("T02", 2, "31", "13");
        var text = readings();
        Files.writeString(folder.resolve("readings.csv"), text.replace("T01,2,1,30,12", "T01,2,1,33,12"));
        assertTrue(readings().contains("T01,2,1,33,12"), readings());
        assertEquals(List.of(), bench.counts(0).conflicts());
        count("T03", 2, "20", "1");
        assertTrue(readings().contains("T01,2,1,33,12") && readings().contains("T03,2,1,20,1"), readings());
    }

    @Test
    void aStaleFileLosesNoCountAndTheEditedOneIsKept() throws Exception {
        count("T01", 2, "30", "12");
        count("T02", 2, "31", "13");
        var stale = readings();
        count("T03", 2, "20", "1");
        count("T01", 2, "35", "12");
        readings();
        var edited = stale.replace("T01,2,1,30,12", "T01,2,1,29,12");
        Files.writeString(folder.resolve("readings.csv"), edited);
        var after = readings();
        assertTrue(after.contains("T01,2,1,35,12") && after.contains("T03,2,1,20,1"), after);
        var differing = bench.counts(0).conflicts();
        assertEquals(1, differing.size(), differing.toString());
        assertEquals("35", differing.get(0).held().value());
        assertEquals("29", differing.get(0).offered().value());
        assertEquals(edited, Files.readString(folder.resolve("readings-edited-1.csv")));
    }

    @Test
    void aFileThatCannotBeReadIsLeftAloneAndCountingGoesOn() throws Exception {
        count("T01", 2, "30", "12");
        var text = readings();
        var broken = text.replace("T01,2,1,30,12", "T01,2,1,thirty,12");
        Files.writeString(folder.resolve("readings.csv"), broken);
        assertEquals(broken, readings());
        assertTrue(
                bench.counts(0).problem().startsWith("readings.csv, line 2: found 'thirty' in column germinated"),
                bench.counts(0).problem());
        assertEquals("kept", count("T02", 2, "31", "13").status());
        assertEquals(broken, readings());
        Files.writeString(folder.resolve("readings.csv"), text.replace("30,12", "32,12"));
        var mended = readings();
        assertTrue(mended.contains("T01,2,1,32,12") && mended.contains("T02,2,1,31,13"), mended);
        assertNull(bench.counts(0).problem());
    }

    @Test
    void readingsFromBeforeTheBenchAndColumnsOfOnesOwnAreKept() throws Exception {
        Files.writeString(folder.resolve("readings.csv"), """
                tray,day,frame,germinated,through,height_mm,smell
                T04,1,2,10,2,,sour
                """);
        bench.writeReadings();
        count("T01", 1, "12", "3");
        assertEquals("""
                tray,day,frame,germinated,through,height_mm,smell,note,by,time
                T01,1,1,12,3,,,,Ada,2026-03-04T12:00:00
                T04,1,2,10,2,,sour,,,
                """, readings());
    }

    private Result seeds(String tray, int day, String sown) {
        ids++;
        long last = bench.counts(0).last();
        return bench.count(
                        List.of(new Offer(
                                "seeds-000" + ids, tray, day, 1, last, Map.of(), null, sown, null, null, false)),
                        "Ada")
                .get(0);
    }

    @Test
    void seedsOfOneFrameStandInEveryLineOfReadings() throws Exception {
        count("T01", 1, "30", "12");
        count("T02", 1, "20", "2");
        assertEquals(
                "germinated 30 on day 1 can't be right: expected at most 29, the seeds sown.",
                seeds("T01", 2, "29").reason());
        assertEquals("kept", seeds("T01", 1, "60").status());
        assertEquals("kept", count("T01", 2, "55", "12").status());
        assertEquals("""
                tray,day,frame,sown,germinated,through,height_mm,note,by,time
                T01,1,1,60,30,12,,,Ada,2026-03-04T12:00:00
                T02,1,1,50,20,2,,,Ada,2026-03-04T12:00:00
                T01,2,1,60,55,12,,,Ada,2026-03-04T12:00:00
                """, readings());
        var read = desk.folder().read().readings();
        assertEquals(
                List.of(60, 50, 60), read.stream().map(r -> r.sown().getAsInt()).toList());
    }

    @Test
    void seedsPutInByTheProgramAreNoEditAndEditedOnesAre() throws Exception {
        count("T01", 1, "30", "12");
        count("T02", 1, "20", "2");
        seeds("T01", 1, "60");
        var text = readings();
        long last = bench.last();
        Files.writeString(folder.resolve("readings.csv"), text.replace("T02,1,1,50,20,2", "T02,1,1,50,21,2"));
        assertTrue(readings().contains("T02,1,1,50,21,2"), readings());
        assertEquals(last + 1, bench.last());
        assertEquals("kept", seeds("T02", 1, "48").status());
        Files.writeString(folder.resolve("readings.csv"), readings().replace("T01,1,1,60", "T01,1,1,58"));
        assertTrue(readings().contains("T01,1,1,58,30") && readings().contains("T02,1,1,48,21"), readings());
        assertEquals(List.of(), bench.counts(0).conflicts());
        assertEquals("kept", seeds("T01", 1, "").status());
        assertEquals("kept", seeds("T02", 1, "").status());
        assertTrue(readings().startsWith("tray,day,frame,germinated"), readings());
    }

    @Test
    void aPhotoIsKeptOnceAndOnlyIfItIsOne() throws Exception {
        byte[] jpeg = {(byte) 0xff, (byte) 0xd8, (byte) 0xff, 1, 2};
        var name = bench.photograph("photo-0001", "T01", 2, jpeg, "Ada");
        assertEquals("T01-day-2-photo-0001.jpg", name);
        assertEquals(name, bench.photograph("photo-0001", "T01", 2, jpeg, "Ada"));
        assertEquals(1, bench.counts(0).photos().size());
        assertEquals(5, bench.photo(name).orElseThrow().length);
        assertEquals(Optional.empty(), bench.photo("../plan.yaml"));
        var refused = assertThrows(
                Refused.class,
                () -> bench.photograph("photo-0002", "T01", 2, "<svg>".getBytes(StandardCharsets.UTF_8), "Ada"));
        assertEquals("That is no photo that can be kept: send a JPEG or PNG picture.", refused.getMessage());
    }

    private static byte[] picture() throws Exception {
        var out = new ByteArrayOutputStream();
        ImageIO.write(new BufferedImage(40, 30, BufferedImage.TYPE_INT_RGB), "jpg", out);
        return out.toByteArray();
    }

    @Test
    void chosenPhotosStandInTheReportWithWhatTheirTrayGot() throws Exception {
        var first = bench.photograph("photo-0001", "T01", 2, picture(), "Ada");
        var second = bench.photograph("photo-0002", "T02", 2, picture(), "Ada");
        bench.show(second, true, "=roots, <through>");
        bench.show(first, true, "");
        bench.show(second, true, "roots, <b>through</b>");
        assertEquals("""
                photo,tray,day,words
                T02-day-2-photo-0002.jpg,T02,2,"roots, <b>through</b>"
                T01-day-2-photo-0001.jpg,T01,2,
                """, Files.readString(folder.resolve("photos.csv")));
        for (int tray = 1; tray <= 6; tray++) {
            assertEquals("kept", count("T0" + tray, 3, "30", "1" + tray).status());
        }
        bench.open("Ada");
        Files.delete(folder.resolve("photos").resolve(first));
        desk.analyse();
        var report = Files.readString(folder.resolve("report.html"));
        var got = bench.layout().trays().stream()
                .filter(t -> t.code().equals("T02"))
                .findFirst()
                .orElseThrow()
                .treatment()
                .level("cover");
        assertTrue(report.contains("Tray T02 on day 2: cover " + got + " kg"), "what the tray got");
        assertTrue(report.contains("roots, &lt;b&gt;through&lt;/b&gt;"), "words as words");
        assertEquals(1, report.split("src=\"data:image/jpeg;base64,", -1).length - 1);
        assertTrue(report.contains("This photo can’t be shown: there is no photos/" + first + " any more."));
        bench.show(second, false, "");
        bench.show(first, false, "");
        assertEquals("photo,tray,day,words\n", Files.readString(folder.resolve("photos.csv")));
        desk.analyse();
        assertFalse(Files.readString(folder.resolve("report.html")).contains("Photos</h2>"));
    }

    @Test
    void aPhotoThatWasNeverTakenHereIsNotShown() {
        var refused = assertThrows(Refused.class, () -> bench.show("../plan.yaml", true, ""));
        assertEquals("There is no photo '../plan.yaml'.", refused.getMessage());
    }

    @Test
    void aBrokenListOfPhotosHoldsUpNoCounting() throws Exception {
        Files.writeString(folder.resolve("photos.csv"), "photo,tray\n");
        assertEquals("kept", count("T01", 2, "30", "12").status());
        assertThrows(ProblemsException.class, () -> bench.shownPhotos());
        assertEquals(Stage.COUNTING, desk.stage());
    }
}
