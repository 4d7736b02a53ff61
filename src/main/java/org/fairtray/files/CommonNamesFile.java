package org.fairtray.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.trial.CommonNames;

/** The file that says which names of several growers' trials mean the same. */
public final class CommonNamesFile {
    static final List<String> KEYS =
            List.of("format", "factors", "levels", "outcomes", "conditions", "units", "unit_where_none", "against");
    private static final int FORMAT = 1;

    private CommonNamesFile() {}

    /**
     * The names that a file holds.
     *
     * @param name of the file, for messages
     * @throws ProblemsException with everything that is wrong with it
     */
    public static CommonNames read(String name, byte[] contents) {
        var problems = new Problems(name);
        var keys = PlanSyntax.root(new StoredFile(name, contents), problems).keys(KEYS);
        var read = keys.map(CommonNamesFile::read);
        problems.throwIfAny();
        return read.orElseThrow();
    }

    private static CommonNames read(Keys keys) {
        keys.required("format").ifPresent(v -> v.whole(FORMAT, FORMAT));
        var levels = new LinkedHashMap<String, Map<String, String>>();
        keys.optional("levels")
                .flatMap(PlanValue::keys)
                .ifPresent(of -> of.all().forEach((name, value) -> levels.put(name, words(Optional.of(value)))));
        return new CommonNames(
                words(keys.optional("factors")),
                levels,
                words(keys.optional("outcomes")),
                words(keys.optional("conditions")),
                words(keys.optional("units")),
                words(keys.optional("unit_where_none")),
                words(keys.optional("against")));
    }

    private static Map<String, String> words(Optional<PlanValue> value) {
        var words = new LinkedHashMap<String, String>();
        value.flatMap(PlanValue::keys)
                .ifPresent(keys ->
                        keys.all().forEach((own, meant) -> meant.name().ifPresent(w -> words.put(own, w))));
        return words;
    }

    /**
     * A file with some names.
     *
     * @param remarks lines above them, without #
     */
    public static String text(CommonNames names, List<String> remarks) {
        var lines = new ArrayList<String>();
        remarks.forEach(r -> lines.add("# " + r));
        lines.add("format: " + FORMAT);
        add(lines, "factors", names.factors());
        if (!names.levels().isEmpty()) {
            lines.add("levels:");
            names.levels().forEach((name, words) -> lines.add("  " + PlanText.quoted(name) + ": " + flow(words)));
        }
        add(lines, "outcomes", names.outcomes());
        add(lines, "conditions", names.conditions());
        add(lines, "units", names.units());
        add(lines, "unit_where_none", names.unitWhereNone());
        add(lines, "against", names.against());
        return String.join("\n", lines) + "\n";
    }

    private static void add(List<String> lines, String key, Map<String, String> words) {
        if (!words.isEmpty()) {
            lines.add(key + ": " + flow(words));
        }
    }

    private static String flow(Map<String, String> words) {
        return words.entrySet().stream()
                .map(e -> PlanText.quoted(e.getKey()) + ": " + PlanText.quoted(e.getValue()))
                .collect(Collectors.joining(", ", "{", "}"));
    }
}
