package org.fairtray.files;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.fairtray.trial.ShownPhoto;

/** photos.csv: which photos stand in the report, in the order in which they stand there. */
public final class ShownPhotosFile {
    static final String NAME = "photos.csv";
    private static final List<String> COLUMNS = List.of("photo", "tray", "day", "words");
    private static final Pattern PLAIN_NAME = Pattern.compile("[A-Za-z0-9_-][A-Za-z0-9_. -]{0,240}\\.(?i:jpe?g|png)");

    private ShownPhotosFile() {}

    /** The photos as the text of photos.csv. */
    public static String text(List<ShownPhoto> photos) {
        var csv = new CsvText();
        csv.add(COLUMNS);
        photos.forEach(p -> csv.add(List.of(p.file(), p.tray(), Integer.toString(p.day()), p.words())));
        return csv.text();
    }

    /** Whether a name is that of a JPEG or PNG file and no path. */
    static boolean isPlainName(String name) {
        return PLAIN_NAME.matcher(name).matches();
    }

    /**
     * Reads which photos stand in the report; what is wrong is noted in {@code problems}.
     *
     * @param codes the layout's trays; empty where they aren't known
     * @return the photos whose lines are sound
     */
    static List<ShownPhoto> read(StoredFile file, Problems problems, Optional<? extends Collection<String>> codes) {
        var sheet = Sheet.read(file, problems);
        sheet.only(COLUMNS);
        var lines = new HashMap<String, Integer>();
        return sheet.rows().stream()
                .map(row -> photo(row, problems, codes, lines))
                .flatMap(Optional::stream)
                .toList();
    }

    private static Optional<ShownPhoto> photo(
            Sheet.Row row,
            Problems problems,
            Optional<? extends Collection<String>> codes,
            Map<String, Integer> lines) {
        var name = row.cell("photo").flatMap(ShownPhotosFile::name);
        var tray = row.cell("tray").flatMap(c -> c.tray(codes));
        var day = row.cell("day").flatMap(Cell::day);
        var words = row.cell("words").map(Cell::text).orElse("");
        name.map(n -> lines.putIfAbsent(n, row.line()))
                .ifPresent(before -> problems.add(
                        row.line(), "photo " + Wording.quote(name.get()) + " as in line " + before, "each photo once"));
        return name.isPresent() && tray.isPresent() && day.isPresent()
                ? Optional.of(new ShownPhoto(name.get(), tray.get(), day.get(), words))
                : Optional.empty();
    }

    private static Optional<String> name(Cell cell) {
        return cell.word()
                .flatMap(name -> isPlainName(name)
                        ? Optional.of(name)
                        : cell.refuse("the name of a .jpg or .png file in the folder photos, without a path"));
    }
}
