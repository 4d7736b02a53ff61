package org.fairtray.packs;

import java.util.List;
import java.util.regex.Pattern;

/** The files that a pack may hold. */
public final class PackNames {
    public static final String DESCRIPTION = "datapackage.json";
    public static final String PLAN = "plan.yaml";
    public static final String LAYOUT = "layout.csv";
    public static final String SEAL = "seal.json";
    public static final String FRAMES = "frames.csv";
    public static final String MOVES = "rotation.csv";
    public static final String READINGS = "readings.csv";
    public static final String PHOTOS = "photos.csv";
    public static final String RESULTS = "results.json";
    public static final String REPORT = "report.html";

    static final List<String> ALL =
            List.of(DESCRIPTION, PLAN, LAYOUT, SEAL, FRAMES, MOVES, READINGS, PHOTOS, RESULTS, REPORT);

    /** The folder of photos; other programs give it an entry of its own. */
    static final String PHOTO_FOLDER = "photos/";

    private static final Pattern PHOTO = Pattern.compile("photos/[A-Za-z0-9_-][A-Za-z0-9_. -]{0,100}\\.jpg");

    private PackNames() {}

    /** Whether a file of this name belongs in a pack. */
    static boolean known(String name) {
        return ALL.contains(name) || photo(name);
    }

    /** Whether it is the name of a photo. */
    static boolean photo(String name) {
        return PHOTO.matcher(name).matches();
    }
}
