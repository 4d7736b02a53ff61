package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.ShownPhoto;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * Everything that a trial's files say.
 *
 * @param trial the plan
 * @param layout empty where there is no layout.csv
 * @param readings in the file's order; none where there is no readings.csv or it has only a header
 * @param noteColumns the columns of readings.csv that are kept as notes, in the file's order
 * @param handling where frames lie and trays move, as frames.csv and rotation.csv say; nothing where they aren't there
 * @param photos those that stand in the report, as photos.csv says; none where there is no such file
 * @param seal empty where there is no seal.json
 * @param sealState what became of the seal
 * @param planSha256 of plan.yaml as it is, hexadecimal
 * @param layoutSha256 of layout.csv as it is, hexadecimal; empty where there is none
 * @param notices how the files were understood where that may surprise, in sentences without a full stop
 */
public record TrialFiles(
        Trial trial,
        Optional<Layout> layout,
        List<Reading> readings,
        List<String> noteColumns,
        Handling handling,
        List<ShownPhoto> photos,
        Optional<Seal> seal,
        Seal.State sealState,
        String planSha256,
        Optional<String> layoutSha256,
        List<String> notices) {

    public TrialFiles {
        readings = List.copyOf(readings);
        noteColumns = List.copyOf(noteColumns);
        photos = List.copyOf(photos);
        notices = List.copyOf(notices);
    }

    /**
     * Reads a trial from the bytes of its files, wherever they come from.
     *
     * @param contents by file name; plan.yaml at least, names other than those of a trial's inputs are ignored
     * @throws ProblemsException with everything that is wrong with any file that could be checked
     */
    public static TrialFiles of(Map<String, byte[]> contents) {
        return read(contents.entrySet().stream()
                .collect(Collectors.toMap(Map.Entry::getKey, e -> new StoredFile(e.getKey(), e.getValue()))));
    }

    static TrialFiles read(Map<String, StoredFile> files) {
        var plan = files.get(PlanFile.NAME);
        if (plan == null) {
            throw new ProblemsException(new Problem(
                    PlanFile.NAME, 0, "no such file", "the trial's plan; begin writes one", Optional.empty()));
        }
        return new Reader(PlanFile.read(plan), files).read(plan.sha256());
    }

    /** Reads layout, readings and seal under a plan, each as far as it can be, before any problem is thrown. */
    private static final class Reader {
        private final Trial trial;
        private final Map<String, StoredFile> files;
        private final List<Problem> problems = new ArrayList<>();
        private final Set<String> codes = new LinkedHashSet<>();
        private boolean layoutSound;

        Reader(Trial trial, Map<String, StoredFile> files) {
            this.trial = trial;
            this.files = files;
        }

        TrialFiles read(String planSha256) {
            var layout = layout();
            var read = readings();
            var handling = new Handling(
                    beside(FramesFile.NAME, "frames", (f, found) -> FramesFile.read(trial, f, found, layout)),
                    beside(MovesFile.NAME, "moves", (f, found) -> MovesFile.read(trial, f, found, layout)));
            List<ShownPhoto> photos =
                    beside(ShownPhotosFile.NAME, "photos", (f, found) -> ShownPhotosFile.read(f, found, known()));
            var seal = seal();
            if (!problems.isEmpty()) {
                throw new ProblemsException(problems);
            }
            var layoutSha256 = find(LayoutFile.NAME).map(StoredFile::sha256);
            return new TrialFiles(
                    trial,
                    layout,
                    read.readings(),
                    read.noteColumns(),
                    handling,
                    photos,
                    seal,
                    seal.map(s -> state(s, planSha256)).orElse(Seal.State.ABSENT),
                    planSha256,
                    layoutSha256,
                    read.notices());
        }

        private Optional<StoredFile> find(String name) {
            return Optional.ofNullable(files.get(name));
        }

        private Optional<Layout> layout() {
            return find(LayoutFile.NAME).flatMap(file -> {
                var found = new Problems(file.name());
                Optional<List<Tray>> trays = gather(found, () -> LayoutFile.read(trial, file, found, codes));
                layoutSound = found.none();
                return trays.filter(t -> layoutSound).map(Layout::new);
            });
        }

        private ReadingsFile.Read readings() {
            var none = new ReadingsFile.Read(List.of(), List.of(), List.of());
            return find(ReadingsFile.NAME)
                    .flatMap(file -> {
                        var found = new Problems(file.name());
                        needLayout(file, "readings", found);
                        return gather(found, () -> ReadingsFile.read(trial, file, found, known()));
                    })
                    .orElse(none);
        }

        /** The layout's codes, where they can be relied on. */
        private Optional<Set<String>> known() {
            return layoutSound ? Optional.of(codes) : Optional.empty();
        }

        private void needLayout(StoredFile file, String what, Problems found) {
            if (find(LayoutFile.NAME).isEmpty()) {
                found.add(0, what + " without a layout", "layout.csv beside " + file.name());
            }
        }

        private <T> List<T> beside(String name, String what, BiFunction<StoredFile, Problems, List<T>> read) {
            return find(name)
                    .flatMap(file -> {
                        var found = new Problems(name);
                        needLayout(file, what, found);
                        return gather(found, () -> read.apply(file, found));
                    })
                    .orElse(List.of());
        }

        private Optional<Seal> seal() {
            return find(SealFile.NAME).flatMap(file -> {
                var found = new Problems(file.name());
                return gather(found, () -> SealFile.read(file, found)).flatMap(s -> s);
            });
        }

        /** What a file says, with its problems put to all others. */
        private <T> Optional<T> gather(Problems found, Supplier<T> read) {
            try {
                var result = read.get();
                problems.addAll(found.byLine());
                return Optional.of(result);
            } catch (ProblemsException e) {
                problems.addAll(e.problems());
                return Optional.empty();
            }
        }

        private Seal.State state(Seal seal, String plan) {
            boolean samePlan = seal.planSha256().equals(plan);
            boolean sameLayout = isStill(seal.layoutSha256(), LayoutFile.NAME);
            if (!samePlan || !sameLayout) {
                if (samePlan) {
                    return Seal.State.LAYOUT_CHANGED;
                }
                return sameLayout ? Seal.State.PLAN_CHANGED : Seal.State.BOTH_CHANGED;
            }
            boolean sameFrames = seal.framesSha256().stream().allMatch(h -> isStill(h, FramesFile.NAME));
            boolean sameMoves = seal.movesSha256().stream().allMatch(h -> isStill(h, MovesFile.NAME));
            if (sameFrames) {
                return sameMoves ? Seal.State.HOLDS : Seal.State.MOVES_CHANGED;
            }
            return sameMoves ? Seal.State.FRAMES_CHANGED : Seal.State.FRAMES_AND_MOVES_CHANGED;
        }

        private boolean isStill(String sha256, String name) {
            return find(name).filter(f -> f.sha256().equals(sha256)).isPresent();
        }
    }
}
