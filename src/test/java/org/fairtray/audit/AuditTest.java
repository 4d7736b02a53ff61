package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Seal;
import org.junit.jupiter.api.Test;

/** One layout for each way in which a layout can fail, with what is said of it, and fair ones beside them. */
class AuditTest {

    private static Audit audit(String factors, String place, String layout, Seal.State seal) {
        var plan = "{format: 1, trial: A, factors: [" + factors + "], place: [" + place
                + "], counting: {days: [1], seeds_per_frame: 50}, outcomes: [{name: through, kind: count, day: 1}]}";
        var files = TrialFiles.of(Map.of(
                "plan.yaml", plan.getBytes(StandardCharsets.UTF_8),
                "layout.csv", layout.getBytes(StandardCharsets.UTF_8)));
        return Audit.of(files.trial(), files.layout().orElseThrow(), seal, List.of());
    }

    private static Audit audit(String factors, String place, String layout) {
        return audit(factors, place, layout, Seal.State.HOLDS);
    }

    private static final String SOAK = "{name: soak, levels: [0, 8]}";
    private static final String MAT = "{name: mat, levels: [hemp, coir]}";
    private static final String SHELVES = "{name: shelf, count: 2}, {name: spot, count: 2}";
    private static final String FAIR = "tray,shelf,spot,soak\nT1,1,1,0\nT2,1,2,8\nT3,2,1,8\nT4,2,2,0\n";

    private static final String WEIGHTED = """
            tray,stack,layer,cover,soak
            T1,1,1,0,0
            T2,1,2,0,8
            T3,2,1,3,8
            T4,2,2,3,0
            T5,3,1,3,0
            T6,3,2,3,8
            T7,4,1,0,8
            T8,4,2,0,0
            """;

    private static final String WHOLE_SHELVES = """
            tray,shelf,spot,soak
            T1,1,1,0
            T2,1,2,0
            T3,2,1,8
            T4,2,2,8
            T5,3,1,0
            T6,3,2,0
            T7,4,1,8
            T8,4,2,8
            """;

    private static void assertFound(Audit.Finding expected, Audit audit) {
        assertFalse(audit.fair());
        assertEquals(List.of(expected), audit.findings());
    }

    @Test
    void blocksThatHoldEveryLevelAreFair() {
        assertEquals(List.of(), audit(SOAK, SHELVES, FAIR).findings());
        assertTrue(audit(SOAK, SHELVES, FAIR).fair());
    }

    @Test
    void theOrderOfTheLinesDoesNotMatter() {
        assertTrue(audit(SOAK, SHELVES, "tray,shelf,spot,soak\nT4,2,2,0\nT2,1,2,8\nT1,1,1,0\nT3,2,1,8\n")
                .fair());
    }

    @Test
    void aTrayMoreHereOrThereIsStillFair() {
        assertTrue(audit(
                        SOAK,
                        "{name: shelf, count: 2}, {name: spot, count: 3}",
                        "tray,shelf,spot,soak\nT1,1,1,0\nT2,1,2,8\nT3,1,3,8\nT4,2,1,8\nT5,2,2,0\n")
                .fair());
    }

    @Test
    void aWeightOnWholeStacksIsFairWhereStacksAreRepeated() {
        assertTrue(audit(
                        "{name: cover, levels: [0, 3], applied_to: stack}, " + SOAK,
                        "{name: stack, count: 4}, {name: layer, count: 2}",
                        WEIGHTED)
                .fair());
    }

    @Test
    void eachLevelOnAShelfOfItsOwn() {
        assertFound(
                new Audit.Finding(
                        "confounded",
                        List.of("soak"),
                        List.of("shelf"),
                        "soak differs only where shelf differs, so nothing can tell which of the two made the difference.",
                        "Put every level of soak into every shelf, in random order."
                                + " The smallest change that does it, before sowing: swap T1 and T3."),
                audit(SOAK, SHELVES, "tray,shelf,spot,soak\nT1,1,1,0\nT2,1,2,0\nT3,2,1,8\nT4,2,2,8\n"));
    }

    @Test
    void wholeShelvesTakenForManyTrays() {
        assertFound(
                new Audit.Finding(
                        "false replication",
                        List.of("soak"),
                        List.of("shelf"),
                        "All trays of one shelf got the same soak, so there are 4 × shelf to compare, not 8 trays.",
                        "Say applied_to: shelf in the plan, or give every shelf trays of every soak."
                                + " The smallest change that does it, before sowing: swap T1 and T3, then swap T5 and T7."),
                audit(SOAK, "{name: shelf, count: 4}, {name: spot, count: 2}", WHOLE_SHELVES));
    }

    @Test
    void sayingThatWholeShelvesGotItMendsIt() {
        assertTrue(audit(
                        "{name: soak, levels: [0, 8], applied_to: shelf}",
                        "{name: shelf, count: 4}, {name: spot, count: 2}",
                        WHOLE_SHELVES)
                .fair());
    }

    @Test
    void twoFactorsThatChangeTogether() {
        assertFound(
                new Audit.Finding(
                        "confounded",
                        List.of("soak", "mat"),
                        List.of(),
                        "mat changes only together with soak, so nothing can tell which of the two made the difference.",
                        "Sow every level of mat with every level of soak."),
                audit(
                        SOAK + ", " + MAT,
                        SHELVES,
                        "tray,shelf,spot,soak,mat\nT1,1,1,0,hemp\nT2,1,2,8,coir\nT3,2,1,8,coir\nT4,2,2,0,hemp\n"));
    }

    @Test
    void oneTrayOfEach() {
        assertFound(
                new Audit.Finding(
                        "no replication",
                        List.of("soak"),
                        List.of(),
                        "No tray with the same treatment is repeated, so a difference between levels of soak can't be told"
                                + " from the difference between any two trays treated alike.",
                        "Give each treatment at least two trays."),
                audit(SOAK, "{name: spot, count: 2}", "tray,spot,soak\nT1,1,0\nT2,2,8\n"));
    }

    @Test
    void oneStackOfEachWeight() {
        assertFound(
                new Audit.Finding(
                        "no replication",
                        List.of("cover"),
                        List.of("stack"),
                        "No stack with the same treatment is repeated, so a difference between levels of cover can't be"
                                + " told from the difference between any two stacks treated alike.",
                        "Give each treatment at least two stacks."),
                audit(
                        "{name: cover, levels: [0, 3], applied_to: stack}",
                        "{name: stack, count: 2}, {name: layer, count: 2}",
                        "tray,stack,layer,cover\nT1,1,1,0\nT2,1,2,0\nT3,2,1,3\nT4,2,2,3\n"));
    }

    @Test
    void oneTrayOfEachCombination() {
        var layout = "tray,spot,soak,mat\nT1,1,0,hemp\nT2,2,8,coir\nT3,3,8,hemp\nT4,4,0,coir\n";
        var found = audit(SOAK + ", " + MAT, "{name: spot, count: 4}", layout).findings();
        assertEquals(
                List.of("no replication", "no replication"),
                found.stream().map(Audit.Finding::kind).toList());
        assertEquals(
                "Give each treatment at least two trays, or ask for main effects alone (analysis: {interactions: 1}).",
                found.get(0).remedy());
    }

    @Test
    void onlyOneLevelWasSown() {
        assertFound(
                new Audit.Finding(
                        "no replication",
                        List.of("soak"),
                        List.of(),
                        "Every tray got the same soak, so there is nothing to compare.",
                        "Sow at least two levels of soak, two trays each or more."),
                audit(SOAK, SHELVES, "tray,shelf,spot,soak\nT1,1,1,8\nT2,1,2,8\nT3,2,1,8\nT4,2,2,8\n"));
    }

    @Test
    void aLayoutWithoutASeal() {
        assertFound(
                new Audit.Finding(
                        "not randomised",
                        List.of(),
                        List.of(),
                        "Nothing shows that chance decided which tray got what: the layout has no seal.",
                        "Before sowing, let lay draw the layout. If it was drawn by lot by hand, write down how."),
                audit(SOAK, SHELVES, FAIR, Seal.State.ABSENT));
    }

    @Test
    void whatWasChangedAfterSealing() {
        String redrawn = " changed after sealing, so the layout is not the one that chance drew.";
        var changed = Map.of(
                Seal.State.PLAN_CHANGED, "The plan was" + redrawn,
                Seal.State.LAYOUT_CHANGED, "The layout was" + redrawn,
                Seal.State.BOTH_CHANGED, "The plan and the layout were" + redrawn,
                Seal.State.FRAMES_CHANGED,
                        "The counting frames were changed after sealing, so they don't lie where chance put them.",
                Seal.State.MOVES_CHANGED,
                        "The moves were changed after sealing, so trays don't move as chance drew it.",
                Seal.State.FRAMES_AND_MOVES_CHANGED,
                        "The counting frames and the moves were changed after sealing, so frames don't lie, and trays"
                                + " don't move, as chance drew it.");
        changed.forEach((state, sentence) -> assertFound(
                new Audit.Finding(
                        "not randomised",
                        List.of(),
                        List.of(),
                        sentence,
                        "Go back to the sealed files, or lay again before sowing (lay --replace)."),
                audit(SOAK, SHELVES, FAIR, state)));
    }

    @Test
    void everythingIsSaidAtOnce() {
        var audit = audit(
                SOAK + ", " + MAT,
                SHELVES,
                "tray,shelf,spot,soak,mat\nT1,1,1,0,hemp\nT2,1,2,0,hemp\nT3,2,1,8,coir\nT4,2,2,8,coir\n",
                Seal.State.ABSENT);
        assertEquals(
                List.of(
                        "confounded [soak] [shelf]",
                        "confounded [mat] [shelf]",
                        "confounded [soak, mat] []",
                        "not randomised [] []"),
                audit.findings().stream()
                        .map(f -> f.kind() + " " + f.factors() + " " + f.places())
                        .toList());
    }
}
