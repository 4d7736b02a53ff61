package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import org.fairtray.files.TrialFolder;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Tray;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A trial that ten growers sow together: to each her own folder, and back. */
class SplitCommandTest {
    @TempDir
    private Path temp;

    private Path whole;

    @BeforeEach
    void lay() {
        whole = temp.resolve("ten");
        assertEquals(
                0, Run.of("begin", whole.toString(), "--like", "ten-growers").status());
        assertEquals(0, Run.of("lay", whole.toString(), "--seed", "3").status());
    }

    private Path part(int grower) {
        return temp.resolve("parts").resolve("grower-" + grower);
    }

    private void split() {
        var run =
                Run.of("split", whole.toString(), "--to", temp.resolve("parts").toString(), "--no-sheets");
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().contains("grower 3: 4 trays in "), run.out());
    }

    private void count(int grower, int more) throws IOException {
        var lines = new ArrayList<>(List.of("tray,day,frame,germinated,through,by"));
        for (Tray tray :
                new TrialFolder(part(grower)).read().layout().orElseThrow().trays()) {
            for (int frame = 1; frame <= 2; frame++) {
                int through = 15
                        + grower
                        + more
                        + (tray.treatment().level("soak").equals("8") ? 12 : 0)
                        + Integer.parseInt(tray.code().substring(1)) % 3;
                lines.add(tray.code() + ",6," + frame + ",45," + through + ",helper " + grower);
            }
        }
        Files.write(part(grower).resolve("readings.csv"), lines);
    }

    @Test
    void everyFarmGetsThePlanItsTraysAndASealThatHolds() throws IOException {
        split();
        var codes = new HashSet<String>();
        var orders = new HashSet<String>();
        for (int grower = 1; grower <= 10; grower++) {
            var files = new TrialFolder(part(grower)).read();
            assertEquals(Seal.State.HOLDS, files.sealState());
            assertEquals(3, files.seal().orElseThrow().seed());
            var trays = files.layout().orElseThrow().trays();
            assertEquals(4, trays.size());
            int own = grower;
            assertTrue(trays.stream().allMatch(t -> t.stand().at().get(0) == own));
            trays.forEach(t -> codes.add(t.code()));
            orders.add(trays.stream()
                    .map(t -> t.treatment().level("soak"))
                    .toList()
                    .toString());
            assertArrayEquals(
                    Files.readAllBytes(whole.resolve("plan.yaml")),
                    Files.readAllBytes(part(grower).resolve("plan.yaml")));
        }
        assertEquals(40, codes.size(), "no code stands twice");
        assertTrue(orders.size() > 2, "farms have orders of their own: " + orders);
    }

    @Test
    void whatFarmsCountComesBackAndFarmsAreBlocks() throws IOException {
        split();
        var args = new ArrayList<>(List.of("gather", whole.toString()));
        for (int grower = 1; grower <= 9; grower++) {
            count(grower, 0);
            args.add(part(grower).toString());
        }
        var run = Run.of(args.toArray());
        assertEquals(0, run.status(), run.err());
        assertTrue(run.out().contains("72 readings added from 9 parts."), run.out());
        assertTrue(run.out().contains("Nothing yet of 4 trays: T37, T38, T39, T40."), run.out());
        // Later the tenth comes, and the first once more.
        count(10, 0);
        var again = Run.of("gather", whole.toString(), part(10).toString(), part(1).toString());
        assertTrue(again.out().contains("8 readings added from 2 parts, 8 were there already."), again.out());
        assertTrue(again.out().contains("Every tray was read."), again.out());
        assertEquals(0, Run.of("check", whole.toString()).status());
        var analysed = Run.of("analyse", whole.toString());
        assertEquals(0, analysed.status(), analysed.err());
        var design = JsonParser.parseString(Files.readString(whole.resolve("results.json")))
                .getAsJsonObject()
                .getAsJsonArray("outcomes")
                .get(0)
                .getAsJsonObject()
                .getAsJsonObject("design");
        assertEquals("randomised blocks", design.get("name").getAsString());
        assertEquals("[\"grower\",\"tray\"]", design.getAsJsonArray("strata").toString());
    }

    @Test
    void countsThatDifferAreSaidAndNothingIsWritten() throws IOException {
        split();
        count(1, 0);
        Run.of("gather", whole.toString(), part(1).toString());
        var before = Files.readString(whole.resolve("readings.csv"));
        count(1, 1);
        var run = Run.of("gather", whole.toString(), part(1).toString());
        assertEquals(1, run.status());
        assertTrue(
                run.err()
                        .contains(
                                "found other counts of tray T01, day 6, frame 1 than are there already; expected the same;"
                                        + " settle with who counted which is right, and correct one of the two"),
                run.err());
        assertEquals(before, Files.readString(whole.resolve("readings.csv")));
    }

    @Test
    void aPartOfAnotherTrialIsRefused() throws IOException {
        split();
        var plan = part(2).resolve("plan.yaml");
        Files.writeString(plan, Files.readString(plan) + "# changed\n");
        var run = Run.of("gather", whole.toString(), part(2).toString());
        assertEquals(1, run.status());
        assertTrue(
                run.err()
                        .contains("found another plan; expected a part of Soaking, ten growers together with its"
                                + " plan.yaml unchanged"),
                run.err());
        assertFalse(Files.exists(whole.resolve("readings.csv")));
    }

    @Test
    void aTrialWithoutASealIsNotSplit() throws IOException {
        Files.delete(whole.resolve("seal.json"));
        var run = Run.of("split", whole.toString());
        assertEquals(1, run.status());
        assertTrue(
                run.err().contains("seal.json: found no seal that holds; expected the layout as lay drew it"),
                run.err());
    }

    @Test
    void singleTraysAreNoFarms() {
        var run = Run.of("split", whole.toString(), "--by", "spot");
        assertEquals(1, run.status());
        assertTrue(
                run.err().contains("found 'spot' to split by; expected a place level that holds several trays: grower"),
                run.err());
    }

    @Test
    void aFarmsPartIsPackedAndFoundToBeAsDrawn() throws IOException {
        split();
        count(4, 0);
        var pack = temp.resolve("part.zip");
        assertEquals(
                0, Run.of("pack", part(4).toString(), "--to", pack.toString()).status());
        var verified = Run.of("verify", pack.toString());
        assertEquals(0, verified.status(), verified.out());
        assertTrue(
                verified.out().contains("agrees: the layout. Drawn again from plan and seed 3: the same."),
                verified.out());
        var gathered = Run.of("gather", whole.toString(), pack.toString());
        assertEquals(0, gathered.status(), gathered.err());
        assertTrue(gathered.out().contains("8 readings added from 1 part."), gathered.out());
    }
}
