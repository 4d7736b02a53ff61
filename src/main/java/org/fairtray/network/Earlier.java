package org.fairtray.network;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Listed;
import org.fairtray.archive.Search;
import org.fairtray.experience.Experience;
import org.fairtray.experience.Lessons;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.jobs.Needed;
import org.fairtray.packs.PackFile;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Trial;

/** What earlier trials teach for a plan: one's own folder, a pack, or the trials of an archive that are most like it. */
public final class Earlier {
    /** With more, a farm more or less hardly moves what is learned. */
    private static final int MOST = 200;

    private Earlier() {}

    /**
     * What is learned.
     *
     * @param from a folder of a trial, a pack, an archive's file or its address
     * @throws ProblemsException if nothing can be learned there
     */
    public static Experience of(Trial plan, String from) {
        if (Sources.isArchive(from)) {
            try (var archive = Archive.existing(from)) {
                return of(plan, from, archive);
            }
        }
        var path = Path.of(from);
        var files = Files.isRegularFile(path) ? PackFile.read(path).trial() : new TrialFolder(path).read();
        if (files.layout().isEmpty()) {
            throw Needed.missing("layout.csv", "the layout; lay draws one");
        }
        return learned(plan, files)
                .orElseThrow(
                        () -> refused("readings.csv", "no such file", "readings of a count on the day of its outcome"));
    }

    private static Experience of(Trial plan, String from, Archive archive) {
        var crop = plan.crop().map(Crop::name);
        var search = crop.map(Search.all()::crop).orElse(Search.all());
        var outcome = plan.outcomes().get(0).name();
        var several = new ArrayList<Experience>();
        try (var found = archive.find(search)) {
            var ids = found.map(Listed::trial)
                    .filter(t -> t.outcome().equals(outcome) && t.sealed())
                    .map(t -> t.id())
                    .limit(MOST)
                    .toList();
            ids.forEach(id ->
                    learned(plan, PackFile.read(id, archive.pack(id)).trial()).ifPresent(several::add));
        }
        if (several.isEmpty()) {
            throw refused(
                    from,
                    "no sealed trial" + crop.map(c -> " of " + c).orElse("") + " with counts of " + outcome,
                    "an archive that has some");
        }
        return Experience.together(
                several.size() + (several.size() == 1 ? " trial of " : " trials of ") + from, List.copyOf(several));
    }

    /** Of a trial's counts, the one of the plan's first outcome, else its first. */
    private static Optional<Experience> learned(Trial plan, TrialFiles files) {
        var counts = files.trial().outcomes().stream()
                .flatMap(o -> o.match(Stream::of, m -> Stream.<Outcome.Count>empty()))
                .toList();
        return files.layout()
                .flatMap(layout -> counts.stream()
                        .filter(c -> c.name().equals(plan.outcomes().get(0).name()))
                        .findFirst()
                        .or(() -> counts.stream().findFirst())
                        .flatMap(c -> Lessons.of(files.trial(), layout, files.readings(), c)));
    }

    private static ProblemsException refused(String file, String found, String expected) {
        return new ProblemsException(new Problem(file, 0, found, expected, Optional.empty()));
    }
}
