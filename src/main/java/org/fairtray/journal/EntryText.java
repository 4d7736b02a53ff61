package org.fairtray.journal;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.zip.CRC32C;

/**
 * Entries as lines of JSON, {@code {"crc32c":"89abcdef","entry":{...}}}: the checksum is of the bytes of the entry as they
 * stand in the line, so that a line that was written in part, or damaged, is told from a whole one.
 */
final class EntryText {
    private static final Gson GSON = new GsonBuilder().disableHtmlEscaping().create();
    private static final String BEFORE = "{\"crc32c\":\"";
    private static final String BETWEEN = "\",\"entry\":";
    private static final int ENTRY_AT = BEFORE.length() + 8 + BETWEEN.length();

    private EntryText() {}

    /** The line of an entry, without its line feed. */
    static String line(Entry entry) {
        var text = GSON.toJson(json(entry));
        return BEFORE + checksum(text) + BETWEEN + text + "}";
    }

    /** The entry of a line; empty where it isn't a whole one. */
    static Optional<Entry> entry(String line) {
        boolean framed = line.length() > ENTRY_AT && line.startsWith(BEFORE) && line.endsWith("}");
        if (!framed) {
            return Optional.empty();
        }
        var text = line.substring(ENTRY_AT, line.length() - 1);
        if (!line.startsWith(checksum(text) + BETWEEN, BEFORE.length())) {
            return Optional.empty();
        }
        try {
            return Optional.of(entry(JsonParser.parseString(text).getAsJsonObject()));
        } catch (JsonParseException
                | IllegalStateException
                | NullPointerException
                | NumberFormatException
                | DateTimeException
                | UnsupportedOperationException e) {
            return Optional.empty();
        }
    }

    private static String checksum(String text) {
        var crc = new CRC32C();
        crc.update(text.getBytes(StandardCharsets.UTF_8));
        return HexFormat.of().toHexDigits((int) crc.getValue());
    }

    private static JsonObject json(Entry entry) {
        var json = new JsonObject();
        json.addProperty("number", entry.number());
        json.addProperty("time", entry.time().toString());
        add(json, entry.event());
        return json;
    }

    private static void add(JsonObject json, Event event) {
        if (event instanceof Event.Began began) {
            json.addProperty("what", "began");
            json.addProperty("layout_sha256", began.layoutSha256());
        } else if (event instanceof Event.Counted counted) {
            add(json, counted);
        } else if (event instanceof Event.Sown sown) {
            json.addProperty("what", "sown");
            json.addProperty("date", sown.date().toString());
            json.addProperty("by", sown.by());
        } else if (event instanceof Event.Opened opened) {
            json.addProperty("what", "opened");
            json.addProperty("by", opened.by());
        } else if (event instanceof Event.Photographed photo) {
            json.addProperty("what", "photographed");
            json.addProperty("id", photo.id());
            json.addProperty("file", photo.file());
            json.addProperty("tray", photo.tray());
            json.addProperty("day", photo.day());
            json.addProperty("by", photo.by());
        }
    }

    private static void add(JsonObject json, Event.Counted counted) {
        json.addProperty("what", "counted");
        json.addProperty("id", counted.id());
        json.addProperty("tray", counted.slot().tray());
        json.addProperty("day", counted.slot().day());
        json.addProperty("frame", counted.slot().frame());
        json.addProperty("seen", counted.seen());
        json.add("cells", GSON.toJsonTree(counted.cells()));
        json.addProperty("by", counted.by());
        counted.saidAt().ifPresent(t -> json.addProperty("said_at", t));
        counted.seconds().ifPresent(s -> json.addProperty("seconds", s));
        if (counted.settles()) {
            json.addProperty("settles", true);
        }
    }

    private static Entry entry(JsonObject json) {
        return new Entry(json.get("number").getAsLong(), Instant.parse(text(json, "time")), event(json));
    }

    private static Event event(JsonObject json) {
        return switch (text(json, "what")) {
            case "began" -> new Event.Began(text(json, "layout_sha256"));
            case "counted" -> counted(json);
            case "sown" -> new Event.Sown(LocalDate.parse(text(json, "date")), text(json, "by"));
            case "opened" -> new Event.Opened(text(json, "by"));
            case "photographed" ->
                new Event.Photographed(
                        text(json, "id"),
                        text(json, "file"),
                        text(json, "tray"),
                        json.get("day").getAsInt(),
                        text(json, "by"));
            default -> throw new JsonParseException("no such entry: " + text(json, "what"));
        };
    }

    private static Event.Counted counted(JsonObject json) {
        Map<String, String> cells = new LinkedHashMap<>();
        json.getAsJsonObject("cells")
                .entrySet()
                .forEach(cell -> cells.put(cell.getKey(), cell.getValue().getAsString()));
        var slot = new Slot(
                text(json, "tray"),
                json.get("day").getAsInt(),
                json.get("frame").getAsInt());
        return new Event.Counted(
                text(json, "id"),
                slot,
                json.get("seen").getAsLong(),
                cells,
                text(json, "by"),
                optional(json, "said_at").map(JsonElement::getAsString),
                optional(json, "seconds")
                        .map(s -> OptionalDouble.of(s.getAsDouble()))
                        .orElse(OptionalDouble.empty()),
                optional(json, "settles").isPresent());
    }

    private static Optional<JsonElement> optional(JsonObject json, String key) {
        return Optional.ofNullable(json.get(key));
    }

    private static String text(JsonObject json, String key) {
        return json.get(key).getAsString();
    }
}
