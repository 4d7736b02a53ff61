package org.fairtray.network;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Search;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Sha256;
import org.fairtray.packs.PackFile;
import org.fairtray.pooling.contribution.Contribution;
import org.fairtray.pooling.contribution.ContributionText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ArrivalsTest {
    @TempDir
    private Path home;

    /** All that was told while packs were added. */
    private static final class Heard implements Arrivals.Told {
        private final List<Integer> read = new ArrayList<>();
        private final List<String> refused = new ArrayList<>();

        @Override
        public void read(int number) {
            read.add(number);
        }

        @Override
        public void refused(ProblemsException why) {
            refused.add(why.getMessage());
        }
    }

    private Path write(String name, byte[] bytes) throws IOException {
        var file = home.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.write(file, bytes);
    }

    private String archive() {
        return home.resolve("network.db").toString();
    }

    @Test
    void aPackIsKeptWithWhatItsFilesSay() throws IOException {
        var zip = SamplePacks.titled("Cress under covers");
        var pack = PackFile.read("x", zip);
        var deposit = Depositing.of("x", pack, zip);
        var trial = deposit.trial();
        assertEquals(pack.id(), trial.id());
        assertEquals("Cress under covers", trial.title());
        assertEquals(Sha256.of(pack.files().get("plan.yaml")), trial.protocol());
        assertEquals(
                Sha256.of((trial.protocol() + Sha256.of(pack.files().get("layout.csv")))
                        .getBytes(StandardCharsets.UTF_8)),
                trial.trialId());
        assertEquals(Optional.of("farm-7"), trial.farm());
        assertEquals("cress", trial.crop());
        assertEquals(List.of(new Condition("water", "rain")), trial.conditions());
        assertEquals(pack.trial().layout().orElseThrow().trays().size(), trial.trays());
        assertEquals(
                pack.trial().trial().factors().stream()
                        .map(f -> new Varied(f.name(), f.unit(), f.levels()))
                        .toList(),
                trial.factors());
        assertEquals(Contribution.of(pack.trial()), ContributionText.read(deposit.contribution()));
        assertArrayEquals(zip, deposit.pack());
    }

    @Test
    void aBadPackKeepsNoOtherOut() throws IOException {
        var damaged = SamplePacks.titled("Damaged");
        damaged[damaged.length / 2] ^= 1;
        write("packs/1.zip", SamplePacks.titled("One"));
        write("packs/2.zip", damaged);
        write("packs/more/3.ZIP", SamplePacks.titled("Three"));
        write("packs/more/4.zip", SamplePacks.of("Not laid out", List.of("plan.yaml")));
        write("packs/5.txt", new byte[0]);
        var again = write("again.zip", SamplePacks.titled("One"));
        var heard = new Heard();
        try (var archive = Archive.open(archive())) {
            var packs = PackFiles.in(List.of(home.resolve("packs"), again));
            assertEquals(5, packs.size());
            var summary = Arrivals.add(archive, packs, false, heard);
            assertEquals(new Arrivals.Summary(2, 1, 0, 2), summary);
            assertEquals(
                    List.of("One", "Three"),
                    archive.find(Search.all()).map(l -> l.trial().title()).toList());
            assertEquals(List.of(1, 2, 3, 4, 5), heard.read);
            assertEquals(2, heard.refused.size(), heard.refused::toString);
            assertEquals(
                    home.resolve("packs/more/4.zip")
                            + ": found no layout.csv in it; expected a trial that was laid out",
                    heard.refused.get(1));
            assertEquals(new Arrivals.Summary(0, 3, 0, 2), Arrivals.add(archive, packs, false, new Heard()));
        }
    }

    @Test
    void whatWasWithdrawnComesBackOnlyWhenAsked() throws IOException {
        var pack = write("1.zip", SamplePacks.titled("One"));
        try (var archive = Archive.open(archive())) {
            Arrivals.add(archive, List.of(pack), false, new Heard());
            archive.withdraw(PackFile.read(pack).id(), "a mistake");
            assertEquals(new Arrivals.Summary(0, 0, 1, 0), Arrivals.add(archive, List.of(pack), false, new Heard()));
            assertEquals(new Arrivals.Summary(1, 0, 0, 0), Arrivals.add(archive, List.of(pack), true, new Heard()));
            assertArrayEquals(
                    Files.readAllBytes(pack), archive.pack(PackFile.read(pack).id()));
        }
    }

    @Test
    void manyPacksAreReadByTwoThreadsInTheirOrder() throws IOException {
        var files = new ArrayList<Path>();
        for (int n = 0; n < 30; n++) {
            files.add(write("packs/" + n + ".zip", SamplePacks.titled("Trial " + n)));
        }
        try (var archive = Archive.open(archive())) {
            assertEquals(new Arrivals.Summary(30, 0, 0, 0), Arrivals.add(archive, files, false, new Heard()));
            assertEquals(30, archive.contributions(Search.all()).count());
        }
    }

    @Test
    void aFolderWithoutPacksIsToldOf() throws IOException {
        write("none/readings.csv", new byte[0]);
        var folder = home.resolve("none");
        assertEquals(
                folder + ": found no packs in it; expected files that end in .zip",
                assertThrows(ProblemsException.class, () -> PackFiles.in(List.of(folder)))
                        .getMessage());
        var missing = home.resolve("no.zip");
        var heard = new Heard();
        try (var archive = Archive.open(archive())) {
            assertEquals(
                    new Arrivals.Summary(0, 0, 0, 1),
                    Arrivals.add(archive, PackFiles.in(Arrays.asList(missing)), false, heard));
        }
        assertEquals(List.of(missing + ": found no such file; expected a pack, as pack writes one"), heard.refused);
    }
}
