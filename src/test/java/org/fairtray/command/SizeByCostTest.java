package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SizeByCostTest {
    @TempDir
    Path folder;

    private Path plan() {
        var plan = folder.resolve("plan");
        assertEquals(0, Run.of("begin", plan, "--like", "soak-or-not").status());
        return plan;
    }

    @Test
    void limitsAreKept() {
        var said = Run.of("size", plan(), "--simulations", "0", "--money", "30", "--json");
        assertEquals(0, said.status(), said::err);
        var spending = said.json().getAsJsonObject("spending");
        assertEquals(30, spending.get("money").getAsDouble());
        spending.getAsJsonArray("choices").forEach(c -> {
            var choice = c.getAsJsonObject();
            assertTrue(!choice.get("fits").getAsBoolean() || choice.get("cost").getAsDouble() <= 30, choice::toString);
        });
        assertTrue(said.json().get("earlier").isJsonNull());
    }

    @Test
    void anEarlierTrialGivesItsFigures() throws IOException {
        var earlier = folder.resolve("earlier");
        Files.createDirectories(earlier);
        for (var name : new String[] {"plan.yaml", "layout.csv", "readings.csv"}) {
            Files.copy(Path.of("datasets/never-made").resolve(name), earlier.resolve(name));
        }
        var said = Run.of("size", plan(), "--simulations", "0", "--from", earlier, "--json");
        assertEquals(0, said.status(), said::err);
        var learned = said.json().getAsJsonObject("earlier");
        assertEquals("germinated", learned.get("outcome").getAsString());
        var assurance = learned.getAsJsonArray("assurances").get(0).getAsJsonObject();
        assertTrue(assurance.get("assurance").getAsDouble()
                < assurance.get("power").getAsDouble());
        assertTrue(said.json().get("assumptions").toString().contains("the trial 'Invented, soaking"));
    }

    @Test
    void anEarlierTrialNeedsReadings() {
        var plan = plan();
        var said = Run.of("size", plan, "--from", plan);
        assertEquals(1, said.status());
        assertTrue(said.err().contains("layout.csv"), said.err());
    }

    @Test
    void limitsAreAboveZero() {
        var said = Run.of("size", plan(), "--grams", "-3");
        assertEquals(2, said.status());
        assertTrue(said.err().contains("--grams -3.0: expected a number above 0"), said.err());
    }
}
