package org.fairtray.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.fairtray.Trials;
import org.fairtray.design.Structure;
import org.junit.jupiter.api.Test;

class OverlapTest {

    /** Counting trays gives what the factor's contrasts give: neither is worth having if they differ. */
    @Test
    void theShareIsThatOfTheContrasts() {
        var mats = List.of("hemp", "coir", "pad");
        var trials = Trials.of(
                        Trials.place("shelf 4", "spot 5"),
                        List.of(Trials.factor("mat", "tray", "hemp", "coir", "pad")),
                        Trials.THROUGH)
                .laid(at -> List.of(mats.get((at.get(0) * at.get(1) + at.get(1) / 3) % 3)));
        var structure = Structure.of(trials.trial(), trials.layout().trays());
        var trays = structure.trays();
        double share = Overlap.of(
                        PartlyConfounded.levels(trays, "mat"), PartlyConfounded.units(trials.trial(), trays, "shelf"))
                .share();
        assertTrue(share > 0.01 && share < 0.99, () -> "share " + share);
        assertEquals(structure.decomposition().confoundedWith(0, structure.units("shelf")), share, 1e-12);
    }
}
