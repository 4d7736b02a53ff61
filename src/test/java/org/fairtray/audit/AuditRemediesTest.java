package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.Test;

/** What is partly wrong with a layout, and the smallest change that mends it, which is made here and audited again. */
class AuditRemediesTest {
    private static final String SOAK = "{name: soak, levels: [0, 8]}";
    private static final String SHELVES = "{name: shelf, count: 2}, {name: spot, count: 4}";

    private static TrialFiles files(String factors, String place, String rest, String layout, String readings) {
        var plan = "{format: 1, trial: A, factors: [" + factors + "], place: [" + place
                + "], counting: {days: [1], seeds_per_frame: 50}, outcomes: [{name: through, kind: count, day: 1}]"
                + rest
                + "}";
        var files = new HashMap<String, byte[]>();
        files.put("plan.yaml", plan.getBytes(StandardCharsets.UTF_8));
        files.put("layout.csv", layout.getBytes(StandardCharsets.UTF_8));
        files.put("readings.csv", readings.getBytes(StandardCharsets.UTF_8));
        return TrialFiles.of(files);
    }

    private static Audit audit(TrialFiles files, Seal.State seal) {
        return Audit.of(files.trial(), files.layout().orElseThrow(), seal, files.readings());
    }

    private static Audit audit(String factors, String place, String rest, String layout) {
        return audit(files(factors, place, rest, layout, "tray,day,germinated,through\n"), Seal.State.HOLDS);
    }

    /** Trays T1, T2, ... with their places and levels. */
    private static String layout(String header, String... rows) {
        var text = new StringBuilder("tray," + header + "\n");
        for (int i = 0; i < rows.length; i++) {
            text.append("T").append(i + 1).append(",").append(rows[i]).append("\n");
        }
        return text.toString();
    }

    private static void assertOne(String kind, String sentence, String remedy, Audit audit) {
        assertEquals(1, audit.findings().size(), audit.findings()::toString);
        var found = audit.findings().get(0);
        assertEquals(List.of(kind, sentence, remedy), List.of(found.kind(), found.sentence(), found.remedy()));
    }

    @Test
    void threeOfOneAndOneOfTheOther() {
        var rows = new String[] {"1,1,0", "1,2,8", "1,3,0", "1,4,0", "2,1,8", "2,2,8", "2,3,0", "2,4,8"};
        assertOne(
                "confounded",
                "soak and shelf go partly together: 25 % of what the trays could show of soak can't be told from"
                        + " differences between one shelf and another.",
                "Put every level of soak equally often into every shelf."
                        + " The smallest change that does it, before sowing: swap T1 and T5.",
                audit(SOAK, SHELVES, "", layout("shelf,spot,soak", rows)));
        rows[0] = "1,1,8";
        rows[4] = "2,1,0";
        assertTrue(audit(SOAK, SHELVES, "", layout("shelf,spot,soak", rows)).fair());
    }

    @Test
    void twoFactorsPartlyTogether() {
        var factors = SOAK + ", {name: mat, levels: [hemp, coir]}";
        var rows = new String[] {
            "1,0,hemp", "2,0,hemp", "3,8,coir", "4,0,hemp", "5,8,coir", "6,8,hemp", "7,8,coir", "8,0,coir"
        };
        assertOne(
                "confounded",
                "mat and soak go partly together: 25 % of what the trays could show of mat can't be told from soak.",
                "Sow every level of mat equally often with every level of soak."
                        + " The smallest change that does it, before sowing: exchange the mat of T1 and T3.",
                audit(factors, "{name: spot, count: 8}", "", layout("spot,soak,mat", rows)));
        rows[0] = "1,0,coir";
        rows[2] = "3,8,hemp";
        assertTrue(audit(factors, "{name: spot, count: 8}", "", layout("spot,soak,mat", rows))
                .fair());
    }

    @Test
    void wholeStacksAreExchangedWhereTheyAreTheUnit() {
        var found = audit(
                        "{name: cover, levels: [0, 3], applied_to: stack}",
                        "{name: shelf, count: 2}, {name: stack, count: 4}, {name: layer, count: 1}",
                        "",
                        layout(
                                "shelf,stack,layer,cover",
                                "1,1,1,0",
                                "1,2,1,0",
                                "1,3,1,0",
                                "1,4,1,3",
                                "2,1,1,3",
                                "2,2,1,3",
                                "2,3,1,0",
                                "2,4,1,3"))
                .findings();
        assertEquals("confounded", found.get(0).kind());
        assertTrue(found.get(0).remedy().endsWith("before sowing: swap stack 1.1 and stack 2.1."), found::toString);
    }

    @Test
    void manyOfOneAndFewOfTheOther() {
        var rows = new String[] {"1,0", "2,0", "3,8", "4,0", "5,0", "6,0", "7,8", "8,0"};
        assertOne(
                "unbalanced",
                "soak 0 has 6 trays and soak 8 only 2: differences are as unsure as with 6 trays shared out equally,"
                        + " not 8.",
                "Give each treatment as many trays as the others, about 4."
                        + " The smallest change that does it, before sowing: give T1 soak 8 instead of soak 0.",
                audit(SOAK, "{name: spot, count: 8}", "", layout("spot,soak", rows)));
        rows[0] = "1,8";
        assertTrue(audit(SOAK, "{name: spot, count: 8}", "", layout("spot,soak", rows))
                .fair());
    }

    @Test
    void aCombinationThatWasForgotten() {
        var factors = "{name: soak, levels: [0, 4, 8]}, {name: mat, levels: [hemp, coir, pad]}";
        var rows = new String[] {
            "1,0,hemp", "2,8,coir", "3,4,pad", "4,0,coir", "5,8,hemp", "6,4,hemp", "7,0,pad", "8,4,coir",
            "9,8,hemp", "10,4,coir", "11,0,pad", "12,4,pad", "13,0,hemp", "14,4,hemp", "15,8,coir", "16,0,coir"
        };
        assertOne(
                "unbalanced",
                "No tray got soak 8, mat pad, so whether one factor's effect depends on another can't be seen in full.",
                "Sow what is missing, or say under never that it is not made.",
                audit(factors, "{name: spot, count: 18}", "", layout("spot,soak,mat", rows)));
    }

    @Test
    void nothingToCompareWith() {
        var rows = new String[] {"1,4", "2,8", "3,8", "4,4"};
        assertOne(
                "no control",
                "No tray got soak 0 h, which the others are to be compared with.",
                "Sow some trays with soak 0 h among the others, as many as of any other level; or name another level under"
                        + " control.",
                audit(
                        "{name: soak, unit: h, levels: [0, 4, 8]}",
                        "{name: spot, count: 4}",
                        "",
                        layout("spot,soak", rows)));
    }

    @Test
    void tooFewTraysForWhatIsAsked() {
        var rows = new String[] {"1,0", "2,8", "3,8", "4,0", "5,8", "6,0", "7,0", "8,8"};
        var expect = ", expect: {control_rate: 0.35, worthwhile: 0.15, tray_correlation: 0.05}";
        assertOne(
                "too small",
                "A change by soak of 15 points, which the plan calls worthwhile, would be seen in about 28 % of such trials,"
                        + " not in 80 %. The smallest change that would be is 31 points.",
                "Give each level of soak about 13 × tray instead of 4; or ask for a larger change. More seeds in the same"
                        + " trays help little.",
                audit(SOAK, "{name: spot, count: 8}", expect, layout("spot,soak", rows)));
    }

    @Test
    void withReadingsOnlyTheTraysThatWereRead() {
        var rows = new String[] {"1,0", "2,8", "3,8", "4,0", "5,8", "6,0", "7,0", "8,8"};
        var readings = "tray,day,germinated,through\nT1,1,40,20\nT4,1,40,20\nT6,1,40,20\nT7,1,40,20\nT2,1,40,20\n";
        var audit = audit(
                files(SOAK, "{name: spot, count: 8}", "", layout("spot,soak", rows), readings),
                Seal.State.LAYOUT_CHANGED);
        assertEquals(
                List.of("unbalanced", "not randomised"),
                audit.findings().stream().map(Audit.Finding::kind).toList());
        assertEquals(
                "Audited without 3 trays that were not read on day 1.",
                audit.notes().get(0));
        assertTrue(audit.findings()
                .get(1)
                .sentence()
                .endsWith("Whether that was after the first reading, the files can't tell."));
    }

    /** Whatever a data set's layout is, it can be audited, and nothing that was drawn by textbook is called confounded. */
    @Test
    void everyDataSetCanBeAudited() throws IOException {
        var kinds = new HashMap<String, List<String>>();
        try (Stream<Path> folders = Files.list(Path.of("datasets"))) {
            for (var folder :
                    folders.filter(f -> Files.exists(f.resolve("layout.csv"))).toList()) {
                var files = TrialFiles.of(Map.of(
                        "plan.yaml", Files.readAllBytes(folder.resolve("plan.yaml")),
                        "layout.csv", Files.readAllBytes(folder.resolve("layout.csv"))));
                var found = audit(files, Seal.State.HOLDS).findings();
                found.forEach(f ->
                        assertFalse(f.sentence().contains("NaN") || f.remedy().contains("NaN"), f::toString));
                kinds.put(
                        folder.getFileName().toString(),
                        found.stream().map(Audit.Finding::kind).toList());
            }
        }
        for (var name : List.of("cochran-bib", "yates-oats", "npk", "maize-square", "rice-strips")) {
            var unfair =
                    kinds.get(name).stream().filter(k -> !k.equals("patterned")).toList();
            assertEquals(List.of(), unfair, name);
        }
    }
}
