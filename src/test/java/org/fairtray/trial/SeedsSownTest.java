package org.fairtray.trial;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.fairtray.Trials;
import org.fairtray.files.TrialFolder;
import org.junit.jupiter.api.Test;

/** Seeds from grams, by hand. */
class SeedsSownTest {

    @Test
    void gramsAndWeightGiveSeedsPerTrayAndPerFrame() {
        // 30 g at 15 g a thousand are 2000 clusters of 2 seeds; a frame of 10 by 10 cm is a 12.5th of 50 by 25.
        var trial = new TrialFolder(Path.of("src/test/resources/good-files/every-key")).readPlan();
        var sown = SeedsSown.of(trial).orElseThrow();
        assertEquals(4000, sown.perTray(), 1e-9);
        assertEquals(320, sown.perFrame().orElseThrow(), 1e-9);
        assertEquals(
                "30 g a tray is about 4000 seeds, and about 320 in what is counted; the plan says 50. That is an estimate"
                        + " unless the seeds are counted: then write them as sown in readings.csv.",
                sown.sentence());
    }

    @Test
    void nothingIsSaidWithoutAWeight() {
        var trials =
                Trials.of(Trials.place("spot 4"), List.of(Trials.factor("soak", "tray", "0", "8")), Trials.THROUGH);
        assertEquals(Optional.empty(), SeedsSown.of(trials.trial()));
    }
}
