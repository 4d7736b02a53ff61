package org.fairtray.files;

import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.fairtray.trial.Seal;

/** seal.json: what plan, layout, frames and moves were when the trial was drawn. */
public final class SealFile {
    static final String NAME = "seal.json";
    private static final String PLAN = "plan_sha256";
    private static final String LAYOUT = "layout_sha256";
    private static final String FRAMES = "frames_sha256";
    private static final String MOVES = "rotation_sha256";
    private static final String SEED = "seed";
    private static final String GENERATOR = "generator";
    private static final String RESTRICTIONS = "restrictions";
    private static final String TIME = "time";
    private static final String VERSION = "version";
    static final List<String> KEYS = List.of(PLAN, LAYOUT, FRAMES, MOVES, SEED, GENERATOR, RESTRICTIONS, TIME, VERSION);

    private static final Pattern SHA256 = Pattern.compile("[0-9a-f]{64}");
    private static final Pattern LINE = Pattern.compile("line (\\d+) column");

    private final String text;
    private final JsonObject json;
    private final Problems problems;

    private SealFile(String text, JsonObject json, Problems problems) {
        this.text = text;
        this.json = json;
        this.problems = problems;
    }

    /** The seal as the text of seal.json. */
    public static String text(Seal seal) {
        var restrictions = new JsonArray();
        seal.restrictions().forEach(restrictions::add);
        var json = new JsonObject();
        json.addProperty(PLAN, seal.planSha256());
        json.addProperty(LAYOUT, seal.layoutSha256());
        seal.framesSha256().ifPresent(h -> json.addProperty(FRAMES, h));
        seal.movesSha256().ifPresent(h -> json.addProperty(MOVES, h));
        json.addProperty(SEED, seal.seed());
        json.addProperty(GENERATOR, seal.generator());
        json.add(RESTRICTIONS, restrictions);
        json.addProperty(TIME, seal.time());
        json.addProperty(VERSION, seal.version());
        var gson = new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();
        return gson.toJson(json) + "\n";
    }

    /** The seal, or empty, with problems, if the file isn't one. */
    static Optional<Seal> read(StoredFile file, Problems problems) {
        var text = file.text();
        try {
            var reader = new JsonReader(new StringReader(text));
            reader.setStrictness(Strictness.STRICT);
            var json = JsonParser.parseReader(reader);
            boolean more = reader.peek() != JsonToken.END_DOCUMENT;
            if (!json.isJsonObject() || more) {
                problems.add(0, "something else than one JSON object", "a seal as lay writes it");
                return Optional.empty();
            }
            return new SealFile(text, json.getAsJsonObject(), problems).read();
        } catch (JsonParseException | IOException e) {
            problems.add(line(e), "text that isn't JSON", "a seal as lay writes it");
            return Optional.empty();
        }
    }

    private static int line(Exception e) {
        var line = LINE.matcher(String.valueOf(e.getMessage()));
        return line.find() ? Integer.parseInt(line.group(1)) : 0;
    }

    private Optional<Seal> read() {
        json.keySet().stream().filter(k -> !KEYS.contains(k)).forEach(k -> problems.unknown(line(k), "key", k, KEYS));
        var plan = hash(PLAN);
        var layout = hash(LAYOUT);
        var frames = json.has(FRAMES) ? hash(FRAMES) : Optional.<String>empty();
        var moves = json.has(MOVES) ? hash(MOVES) : Optional.<String>empty();
        var seed = seed();
        var generator = word(GENERATOR);
        var restrictions = restrictions();
        var time = word(TIME);
        var version = word(VERSION);
        return problems.none()
                ? Optional.of(new Seal(
                        plan.orElseThrow(),
                        layout.orElseThrow(),
                        frames,
                        moves,
                        seed.orElseThrow(),
                        generator.orElseThrow(),
                        restrictions,
                        time.orElseThrow(),
                        version.orElseThrow()))
                : Optional.empty();
    }

    private Optional<String> word(String key) {
        return value(key, "text").flatMap(v -> isText(v) ? Optional.of(v.getAsString()) : refuse(key, "text"));
    }

    private Optional<String> hash(String key) {
        var expected = "a SHA-256 of 64 hexadecimal digits";
        return value(key, expected)
                .flatMap(v -> isText(v) && SHA256.matcher(v.getAsString()).matches()
                        ? Optional.of(v.getAsString())
                        : refuse(key, expected));
    }

    private Optional<Long> seed() {
        var expected = "a whole number";
        return value(SEED, expected).flatMap(v -> {
            try {
                return v.isJsonPrimitive() && v.getAsJsonPrimitive().isNumber()
                        ? Optional.of(Long.valueOf(v.getAsString()))
                        : refuse(SEED, expected);
            } catch (NumberFormatException e) {
                return refuse(SEED, expected);
            }
        });
    }

    private List<String> restrictions() {
        var words = new ArrayList<String>();
        var value = value(RESTRICTIONS, "a list of texts");
        if (value.isPresent() && value.get().isJsonArray()) {
            for (var item : value.get().getAsJsonArray()) {
                (isText(item) ? Optional.of(item.getAsString()) : this.<String>refuse(RESTRICTIONS, "a list of texts"))
                        .ifPresent(words::add);
            }
        } else {
            value.ifPresent(v -> refuse(RESTRICTIONS, "a list of texts"));
        }
        return words;
    }

    private Optional<JsonElement> value(String key, String expected) {
        if (!json.has(key)) {
            problems.add(0, "no key '" + key + "'", "a key " + key + " with " + expected);
        }
        return Optional.ofNullable(json.get(key));
    }

    private static boolean isText(JsonElement value) {
        return value.isJsonPrimitive() && value.getAsJsonPrimitive().isString();
    }

    private <T> Optional<T> refuse(String key, String expected) {
        problems.add(line(key), key + " " + Wording.quote(json.get(key).toString()), expected);
        return Optional.empty();
    }

    /** The first line with this key in quotes. */
    private int line(String key) {
        int at = text.indexOf("\"" + key + "\"");
        return at < 0
                ? 0
                : 1 + (int) text.substring(0, at).chars().filter(c -> c == '\n').count();
    }
}
