package org.fairtray.sharing;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.ReadingsFile;
import org.fairtray.files.SealFile;
import org.fairtray.files.ShownPhotosFile;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.files.Wording;
import org.fairtray.jobs.Version;
import org.fairtray.packs.PackFile;
import org.fairtray.packs.PackNames;
import org.fairtray.photos.NoPhotoException;
import org.fairtray.photos.SmallPhoto;
import org.fairtray.trial.Reading;
import org.fairtray.trial.ShownPhoto;

/**
 * What of a trial goes into a pack and what stays at home, decided and ready to be said before anything is written.
 *
 * @param title the trial's
 * @param leftOut what stays at home because nobody said that it may go along
 * @param notices what else to bear in mind before it is handed on, in sentences
 * @param files what goes along, without what is made of it
 */
public record Packing(
        String title,
        PackOptions options,
        List<LeftOut> leftOut,
        List<String> notices,
        SortedMap<String, byte[]> files) {
    /** Files that go along as they are: what is sealed must stay the same to the byte. */
    private static final List<String> AS_THEY_ARE =
            List.of(PackNames.PLAN, PackNames.LAYOUT, PackNames.FRAMES, PackNames.MOVES);
    /** Files that are read to make those that go along. */
    private static final List<String> OTHERS = List.of(PackNames.SEAL, PackNames.READINGS, PackNames.PHOTOS);

    /** Never in a pack, whatever is asked for. */
    public static final String NEVER = "readings.journal, sheets to print, and the names of folders and computers.";

    public Packing {
        leftOut = List.copyOf(leftOut);
        notices = List.copyOf(notices);
    }

    /**
     * Looks through a trial's folder; nothing is written.
     *
     * @throws org.fairtray.files.ProblemsException with everything that is wrong with a file
     */
    public static Packing of(TrialFolder folder, PhotoFolder photos, PackOptions options) {
        folder.requireFolder();
        var found = new LinkedHashMap<String, byte[]>();
        AS_THEY_ARE.forEach(name -> folder.bytes(name).ifPresent(bytes -> found.put(name, bytes)));
        OTHERS.forEach(name -> folder.bytes(name).ifPresent(bytes -> found.put(name, bytes)));
        return new Choice(found, TrialFiles.of(found), photos, options).made();
    }

    /** What goes along and what doesn't, gathered file by file. */
    private static final class Choice {
        private final Map<String, byte[]> found;
        private final TrialFiles trial;
        private final PhotoFolder photos;
        private final PackOptions options;
        private final List<LeftOut> leftOut = new ArrayList<>();
        private final List<String> notices = new ArrayList<>();
        private final SortedMap<String, byte[]> files = new TreeMap<>();

        Choice(Map<String, byte[]> found, TrialFiles trial, PhotoFolder photos, PackOptions options) {
            this.found = found;
            this.trial = trial;
            this.photos = photos;
            this.options = options;
        }

        Packing made() {
            AS_THEY_ARE.stream().filter(found::containsKey).forEach(name -> files.put(name, found.get(name)));
            readings();
            seal();
            photos();
            notices.add(PlanWords.of(found.get(PackNames.PLAN), trial.trial()));
            if (trial.readings().isEmpty()) {
                notices.add("There are no readings, so no results.json and no report.html: the pack is a protocol.");
            }
            if (options.licence().isEmpty()) {
                notices.add("No licence is given, so others don't know what they may do with it.");
            }
            return new Packing(trial.trial().title(), options, leftOut, notices, files);
        }

        private boolean goes(Keep what) {
            return options.keeps(what);
        }

        private void readings() {
            if (trial.readings().isEmpty()) {
                return;
            }
            trial.noteColumns().stream()
                    .filter(column -> !goes(keep(column)))
                    .forEach(column -> leftOut.add(new LeftOut(
                            "readings.csv, column " + Wording.quote(column) + about(column), keep(column))));
            var columns =
                    trial.noteColumns().stream().filter(c -> goes(keep(c))).toList();
            var readings = trial.readings().stream().map(r -> r.noted(kept(r))).toList();
            files.put(PackNames.READINGS, utf8(ReadingsFile.text(trial.trial(), readings, columns)));
        }

        private Map<String, String> kept(Reading reading) {
            var notes = new LinkedHashMap<>(reading.notes());
            notes.keySet().removeIf(column -> !goes(keep(column)));
            return notes;
        }

        private static Keep keep(String column) {
            return switch (column) {
                case "by" -> Keep.BY;
                case "time" -> Keep.TIMES;
                default -> Keep.NOTES;
            };
        }

        private static String about(String column) {
            return switch (keep(column)) {
                case BY -> ": who counted";
                case TIMES -> ": when it was counted";
                case NOTES, PHOTOS -> ": what was noted beside the counts";
            };
        }

        private void seal() {
            trial.seal().ifPresent(seal -> {
                if (goes(Keep.TIMES)) {
                    files.put(PackNames.SEAL, found.get(PackNames.SEAL));
                    return;
                }
                var date = seal.day().orElse("");
                if (!date.equals(seal.time())) {
                    leftOut.add(new LeftOut("seal.json, the time of day of the draw; its date stays", Keep.TIMES));
                }
                files.put(PackNames.SEAL, utf8(SealFile.text(seal.at(date))));
            });
        }

        private void photos() {
            int all = photos.count();
            if (all == 0 && trial.photos().isEmpty()) {
                return;
            }
            if (!goes(Keep.PHOTOS)) {
                leftOut.add(new LeftOut(
                        "photos, " + all + " of them, with the places and times in them, and photos.csv", Keep.PHOTOS));
                return;
            }
            var shown = new ArrayList<ShownPhoto>();
            trial.photos().forEach(photo -> painted(photo, shown));
            if (!shown.isEmpty()) {
                files.put(PackNames.PHOTOS, utf8(ShownPhotosFile.text(shown)));
            }
            notices.add("Photos in the pack: " + shown.size() + ", those of the report, small and painted anew, so that"
                    + " the place and time in them stay here.");
        }

        /** Under a number: what a camera calls its files may say when they were taken. */
        private void painted(ShownPhoto photo, List<ShownPhoto> shown) {
            try {
                photos.read(photo.file()).map(SmallPhoto::jpeg).ifPresent(jpeg -> {
                    var name = (shown.size() + 1) + ".jpg";
                    files.put(Remade.PHOTOS + name, jpeg);
                    shown.add(new ShownPhoto(name, photo.tray(), photo.day(), photo.words()));
                });
            } catch (NoPhotoException e) {
                notices.add("The photo " + Wording.quote(photo.file()) + " is left out: " + e.getMessage() + ".");
            }
        }

        private static byte[] utf8(String text) {
            return text.getBytes(StandardCharsets.UTF_8);
        }
    }

    /** What is left out or told, line by line, for people. */
    public List<String> forPeople() {
        var lines = new ArrayList<String>();
        lines.add(Wording.visible(title));
        if (leftOut.isEmpty()) {
            lines.add("Nothing personal was found beside the counts.");
        } else {
            lines.add("Left out:");
            leftOut.forEach(l -> lines.add("  " + l.sentence()));
        }
        lines.add("Never in a pack: " + NEVER);
        lines.addAll(notices);
        if (options.licence().isEmpty()) {
            lines.add("  --licence CC-BY-4.0 lets them do whatever they like, if they name you.");
        }
        return lines;
    }

    /**
     * The pack, with results and report made anew of what goes along, so that nothing gets into it through them.
     *
     * @return a .zip file
     */
    public byte[] pack() {
        var all = new TreeMap<>(files);
        Remade.of(all).ifPresent(made -> {
            all.put(PackNames.RESULTS, made.json().getBytes(StandardCharsets.UTF_8));
            all.put(PackNames.REPORT, made.html().getBytes(StandardCharsets.UTF_8));
        });
        var kinds = leftOut.stream().map(l -> l.keep().word()).distinct().toList();
        return PackFile.bytes(new PackFile.About(Version.text(), options.farm(), options.licence(), kinds), all);
    }
}
