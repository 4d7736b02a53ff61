package org.fairtray.findings;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class DisagreementTest {
    private static Rerandomised chance(double p, double smallest) {
        return new Rerandomised("cover", List.of("cover"), "f", 4.0, 6, true, p, "permuted", smallest, "...");
    }

    @Test
    void silentWhereBothSayTheSame() {
        assertEquals(Optional.empty(), Disagreement.of(0.04, chance(0.05, 0.01), 0.05));
        assertEquals(Optional.empty(), Disagreement.of(0.3, chance(0.051, 0.01), 0.05));
        assertEquals(Optional.empty(), Disagreement.of(null, chance(0.01, 0.01), 0.05));
    }

    @Test
    void theModelAloneSeesSomething() {
        assertEquals(
                "For cover the model gives p = 0.013, re-randomisation p = 0.12. Chance alone makes differences like"
                        + " these more often than the model takes for possible: its answer leans on its assumptions"
                        + " about how trays differ. More units would put it to the test.",
                Disagreement.of(0.013, chance(0.12, 0.01), 0.05).orElseThrow());
    }

    @Test
    void chanceCouldNotHaveSeenIt() {
        assertEquals(
                "For cover the model gives p = 0.013, re-randomisation p = 0.33. So few arrangements were possible that"
                        + " re-randomisation could not have come below 0.33: what the model says rests on its"
                        + " assumptions about how trays differ. More units would put it to the test.",
                Disagreement.of(0.013, chance(1 / 3.0, 1 / 3.0), 0.05).orElseThrow());
    }

    @Test
    void chanceAloneSeesSomething() {
        assertEquals(
                "For cover the model gives p = 0.080, re-randomisation p = 0.030. Chance alone seldom makes differences"
                        + " like these, though the model doesn't see them: its assumptions about how trays differ may"
                        + " not fit here. Take it as a hint, not as shown.",
                Disagreement.of(0.08, chance(0.03, 0.01), 0.05).orElseThrow());
    }
}
