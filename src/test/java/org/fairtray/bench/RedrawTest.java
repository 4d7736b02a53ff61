package org.fairtray.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.fairtray.jobs.Laid;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is left of a layout's journal when another layout is drawn before the first reading. */
class RedrawTest {
    private static final Clock CLOCK = Clock.system(ZoneId.systemDefault());
    private static final byte[] JPEG = {(byte) 0xff, (byte) 0xd8, (byte) 0xff, 1, 2};

    @TempDir
    Path folder;

    @BeforeEach
    void layOut() {
        BeetTrial.layOut(folder, BeetTrial.PLAN + """
                counting: {days: [1, 2], frames_per_tray: 1, seeds_per_frame: 50}
                outcomes:
                  - {name: germinated, kind: count, of: sown, day: 2}
                """);
    }

    private List<String> aside() throws Exception {
        try (var files = Files.list(folder)) {
            return files.map(f -> f.getFileName().toString())
                    .filter(n -> n.contains("set-aside"))
                    .sorted()
                    .toList();
        }
    }

    @Test
    void nothingIsSetAsideWhereNothingWasSaid() throws Exception {
        try (var desk = new TrialDesk(folder, CLOCK)) {
            desk.bench();
            assertTrue(Files.exists(folder.resolve("readings.journal")));
            for (long seed = 8; seed < 11; seed++) {
                desk.lay(Optional.of(seed));
                assertEquals(0, desk.bench().counts(0).cells().size());
            }
            assertEquals(List.of(), aside());
            assertEquals(1, desk.bench().last(), "begun anew for the layout that is there");
        }
    }

    @Test
    void aDayOfSowingOrAPhotoIsKeptAside() throws Exception {
        try (var desk = new TrialDesk(folder, CLOCK)) {
            desk.bench().sown(LocalDate.of(2026, 3, 1), "Ada");
            desk.lay(Optional.of(8L));
            assertEquals(List.of("readings-set-aside-1.journal"), aside());
            desk.bench().photograph("photo-0001", "T01", 1, JPEG, "Ada");
            desk.lay(Optional.of(9L));
            assertEquals(List.of("readings-set-aside-1.journal", "readings-set-aside-2.journal"), aside());
            assertFalse(desk.bench().counted());
        }
    }

    @Test
    void aDamagedJournalIsKeptAside() throws Exception {
        Files.writeString(folder.resolve("readings.journal"), "nonsense\nmore\n");
        try (var desk = new TrialDesk(folder, CLOCK)) {
            Laid.of(desk.folder(), desk.folder().readPlan(), 8, Optional.empty(), true, share -> {});
        }
        assertEquals(List.of("readings-set-aside-1.journal"), aside());
        assertEquals("nonsense\nmore\n", Files.readString(folder.resolve("readings-set-aside-1.journal")));
    }
}
