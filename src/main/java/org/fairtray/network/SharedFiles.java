package org.fairtray.network;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.packs.Pack;
import org.fairtray.packs.PackFile;
import org.fairtray.pooling.SharedTrial;

/** Shared trials in files: packs, folders of packs, and folders of trials that aren't packed. */
public final class SharedFiles {
    private static final String PLAN = "plan.yaml";

    private SharedFiles() {}

    /**
     * What trials bring, each file worked through by itself, several at once.
     *
     * @param paths packs, folders of trials, and folders that hold packs
     * @param progress gets how many are done
     * @throws ProblemsException with everything that is wrong with any of them
     */
    public static List<SharedTrial> read(List<Path> paths, Consumer<Integer> progress) {
        var files = paths.stream().flatMap(p -> inside(p).stream()).toList();
        var read = new ArrayList<Attempt>();
        try (var attempts = new Ahead<>(files.iterator(), SharedFiles::attempt)) {
            attempts.forEachRemaining(one -> {
                read.add(one);
                progress.accept(read.size());
            });
        }
        var problems = read.stream().flatMap(r -> r.problems().stream()).toList();
        if (!problems.isEmpty()) {
            throw new ProblemsException(problems);
        }
        return read.stream().map(r -> r.trial().orElseThrow()).toList();
    }

    /** A trial, or what is wrong with its file. */
    private record Attempt(Optional<SharedTrial> trial, List<Problem> problems) {}

    private static Attempt attempt(Path file) {
        try {
            return new Attempt(Optional.of(trial(file)), List.of());
        } catch (ProblemsException e) {
            return new Attempt(Optional.empty(), e.problems());
        }
    }

    private static SharedTrial trial(Path file) {
        if (Files.isDirectory(file)) {
            var contribution = Worked.out(file.toString(), files(file));
            return new SharedTrial(contribution.layout(), Optional.empty(), contribution);
        }
        return of(file.toString(), PackFile.read(file));
    }

    /** Whatever is wrong with a trial is said with its folder's name. */
    private static TrialFiles files(Path folder) {
        try {
            return new TrialFolder(folder).read();
        } catch (ProblemsException e) {
            throw e.in(folder.toString());
        }
    }

    /**
     * What a pack brings.
     *
     * @param shown what messages call it
     * @throws ProblemsException if its trial can't be read or has no layout
     */
    public static SharedTrial of(String shown, Pack pack) {
        return new SharedTrial(pack.id(), pack.farm(), Worked.out(shown, pack.trial()));
    }

    /** A trial's own folder stands for itself. */
    private static List<Path> inside(Path path) {
        return Files.exists(path.resolve(PLAN)) ? List.of(path) : PackFiles.in(List.of(path));
    }
}
