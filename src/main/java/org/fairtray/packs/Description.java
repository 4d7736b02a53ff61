package org.fairtray.packs;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;
import org.fairtray.files.Problems;
import org.fairtray.files.Wording;

/**
 * What datapackage.json says, as far as a pack is read by it.
 *
 * @param version of the program that packed
 */
record Description(String title, String version, Optional<String> farm, Optional<String> licence, List<Listed> listed) {
    static final String OURS = "fairtray";
    static final String VERSION = "version";
    static final String FARM = "farm";
    static final String TITLE = "title";
    static final String RESOURCES = "resources";
    static final String LICENCES = "licenses";
    static final String NAME = "name";
    static final String PATH = "path";
    static final String BYTES = "bytes";
    static final String HASH = "hash";

    private static final Pattern SHA256 = Pattern.compile("sha256:[0-9a-f]{64}");
    private static final Pattern CODE = Pattern.compile("[A-Za-z0-9][A-Za-z0-9._-]{0,39}");
    private static final Pattern NUMBER = Pattern.compile("\\d{1,9}");

    Description {
        listed = List.copyOf(listed);
    }

    /** A file as it is listed. */
    record Listed(String path, long bytes, String sha256) {}

    /** Whether a text can be the code of a farm, or the name of a licence. */
    static boolean isCode(String text) {
        return CODE.matcher(text).matches();
    }

    /** Reads a stranger's; empty, with problems, where it can't be relied on. */
    static Optional<Description> read(byte[] bytes, Problems problems) {
        try {
            return new Reader(StrictJson.object(bytes), problems).read();
        } catch (StrictJson.BadJsonException e) {
            problems.add(0, PackNames.DESCRIPTION + " with " + e.getMessage(), "a data package, as pack writes it");
            return Optional.empty();
        }
    }

    private record Reader(JsonObject json, Problems problems) {

        Optional<Description> read() {
            var title = text(json, TITLE);
            var ours = json.get(OURS) instanceof JsonObject object ? object : new JsonObject();
            var version = text(ours, VERSION);
            if (title.isEmpty() || version.isEmpty()) {
                add((title.isEmpty() ? "no " + TITLE : "no " + OURS + "." + VERSION) + " in it", "what pack writes");
            }
            var farm = code(ours, FARM);
            var licence = licence();
            var listed = listed();
            return problems.none()
                    ? Optional.of(new Description(title.orElseThrow(), version.orElseThrow(), farm, licence, listed))
                    : Optional.empty();
        }

        private Optional<String> code(JsonObject object, String key) {
            var code = text(object, key);
            if (object.has(key) && code.filter(Description::isCode).isEmpty()) {
                add(key + " " + Wording.quote(object.get(key).toString()), "1 to 40 letters, digits, '.', '_', '-'");
            }
            return code;
        }

        private Optional<String> licence() {
            if (!json.has(LICENCES)) {
                return Optional.empty();
            }
            return json.get(LICENCES) instanceof JsonArray all
                            && all.size() == 1
                            && all.get(0) instanceof JsonObject licence
                            && licence.has(NAME)
                    ? code(licence, NAME)
                    : refuse(LICENCES + " other than one with a name", "one licence, or no " + LICENCES);
        }

        private List<Listed> listed() {
            if (!(json.get(RESOURCES) instanceof JsonArray resources) || resources.isEmpty()) {
                add("no list of " + RESOURCES, "one item for each file");
                return List.of();
            }
            var paths = new HashSet<String>();
            var listed = new ArrayList<Listed>();
            StreamSupport.stream(resources.spliterator(), false)
                    .map(this::listed)
                    .flatMap(Optional::stream)
                    .forEach(file -> {
                        if (!paths.add(file.path())) {
                            add(Wording.quote(file.path()) + " twice", "each file once");
                        }
                        listed.add(file);
                    });
            return listed;
        }

        private Optional<Listed> listed(JsonElement item) {
            if (!(item instanceof JsonObject resource)) {
                return refuse("an item of " + RESOURCES + " that is no object", "one for each file");
            }
            var path = text(resource, PATH);
            var bytes = resource.has(BYTES)
                    ? Optional.of(resource.get(BYTES).toString())
                            .filter(n -> NUMBER.matcher(n).matches())
                            .map(Long::valueOf)
                    : Optional.<Long>empty();
            var hash = text(resource, HASH).filter(h -> SHA256.matcher(h).matches());
            return path.isPresent() && bytes.isPresent() && hash.isPresent()
                    ? Optional.of(new Listed(
                            path.get(),
                            bytes.get(),
                            hash.get().substring(hash.get().indexOf(':') + 1)))
                    : refuse(
                            "an item of " + RESOURCES
                                    + path.map(p -> ", " + Wording.quote(p) + ",")
                                            .orElse("") + " without path, bytes and a SHA-256 as hash",
                            "all three");
        }

        private static Optional<String> text(JsonObject object, String key) {
            return Optional.ofNullable(object.get(key))
                    .filter(v -> v.isJsonPrimitive() && v.getAsJsonPrimitive().isString())
                    .map(JsonElement::getAsString);
        }

        private <T> Optional<T> refuse(String found, String expected) {
            add(found, expected);
            return Optional.empty();
        }

        private void add(String found, String expected) {
            problems.add(0, PackNames.DESCRIPTION + " with " + found, expected);
        }
    }
}
