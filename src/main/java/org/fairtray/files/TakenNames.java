package org.fairtray.files;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The names of factors, place levels and batches: each is a column of the layout, so none may be used twice. */
final class TakenNames {
    /** Columns that files have of their own. */
    static final List<String> RESERVED =
            List.of("tray", "day", "frame", "sown", "germinated", "through", "note", "by", "time");

    private final Map<String, String> taken = new HashMap<>();

    /** A name not used before; {@code kind} is what bears it, such as "a factor". */
    Optional<String> take(PlanValue value, String kind) {
        return value.name().flatMap(name -> {
            if (RESERVED.contains(name)) {
                return value.refuse("a name other than " + Wording.list(RESERVED) + ", which are columns");
            }
            var before = taken.putIfAbsent(name, kind + " in line " + value.line());
            return before == null
                    ? Optional.of(name)
                    : value.refuse("a name of its own for " + kind + "; this one is that of " + before);
        });
    }
}
