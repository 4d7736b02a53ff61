package org.fairtray.network;

import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Locale;
import org.fairtray.files.Sha256;

/** A word as part of a file's name that every web space takes; different words have different ones. */
final class Slug {
    private static final int LONGEST = 40;
    private static final int CHECK = 8;

    private Slug() {}

    static String of(String word) {
        var folded = word.strip().toLowerCase(Locale.ROOT);
        var plain = Normalizer.normalize(folded, Normalizer.Form.NFKD)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        var cut = plain.substring(0, Math.min(LONGEST, plain.length()));
        return cut.equals(folded)
                ? cut
                : cut
                        + (cut.isEmpty() ? "" : "-")
                        + Sha256.of(folded.getBytes(StandardCharsets.UTF_8)).substring(0, CHECK);
    }
}
