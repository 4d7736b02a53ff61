package org.fairtray.report;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Map;

/**
 * results.json: every record of the findings becomes an object, its components the keys, in their order and in
 * {@code snake_case}. The keys of maps are names of the grower's and stay as they are. A number that isn't available is
 * written as {@code null}.
 */
public final class ResultsJson {
    private ResultsJson() {}

    /**
     * Findings, or any other record of results, as JSON with a line break at the end.
     *
     * @throws IllegalStateException if a number is NaN or infinite; the message names its key
     */
    public static String of(Record findings) {
        var text = new StringWriter();
        whole(findings, text);
        return text.toString();
    }

    /**
     * Prints the same piece by piece, since what many trials showed is long. Numbers are looked at before the first piece is
     * printed.
     *
     * @throws IllegalStateException if a number is NaN or infinite; the message names its key
     */
    public static void print(Record findings, Writer out) {
        whole(findings, Writer.nullWriter());
        whole(findings, out);
    }

    private static void whole(Record findings, Writer out) {
        var json = new JsonWriter(out);
        json.setIndent("  ");
        json.setSerializeNulls(true);
        try {
            write(json, "", findings);
            out.write("\n");
        } catch (IOException e) {
            throw new UncheckedIOException("writing JSON failed", e);
        }
    }

    private static void write(JsonWriter json, String path, Object value) throws IOException {
        if (value == null) {
            json.nullValue();
        } else if (value instanceof Number number) {
            json.value(finite(path, number));
        } else if (value instanceof String text) {
            json.value(text);
        } else if (value instanceof Boolean yes) {
            json.value(yes);
        } else if (value instanceof List<?> list) {
            writeList(json, path, list);
        } else if (value instanceof Map<?, ?> map) {
            writeMap(json, path, map);
        } else if (value instanceof Record fields) {
            writeRecord(json, path, fields);
        } else {
            throw new IllegalStateException(
                    path + " is a " + value.getClass().getName() + ": expected a record, list, map, text or number");
        }
    }

    private static Number finite(String path, Number number) {
        if (!Double.isFinite(number.doubleValue())) {
            throw new IllegalStateException(path + " is " + number + ": expected a finite number or null");
        }
        return number;
    }

    private static void writeList(JsonWriter json, String path, List<?> list) throws IOException {
        json.beginArray();
        for (int i = 0; i < list.size(); i++) {
            write(json, path + "[" + i + "]", list.get(i));
        }
        json.endArray();
    }

    private static void writeMap(JsonWriter json, String path, Map<?, ?> map) throws IOException {
        json.beginObject();
        for (var entry : map.entrySet()) {
            json.name(entry.getKey().toString());
            write(json, join(path, entry.getKey().toString()), entry.getValue());
        }
        json.endObject();
    }

    private static void writeRecord(JsonWriter json, String path, Record fields) throws IOException {
        json.beginObject();
        for (var component : fields.getClass().getRecordComponents()) {
            var key = snake(component.getName());
            json.name(key);
            write(json, join(path, key), read(component, fields));
        }
        json.endObject();
    }

    /** A record may be its room's own, and then only its room may call its accessors unless told otherwise. */
    private static Object read(RecordComponent component, Record fields) {
        var accessor = component.getAccessor();
        accessor.setAccessible(true);
        try {
            return accessor.invoke(fields);
        } catch (IllegalAccessException | InvocationTargetException e) {
            throw new IllegalStateException("component " + component + " can't be read", e);
        }
    }

    private static String join(String path, String key) {
        return path.isEmpty() ? key : path + "." + key;
    }

    private static String snake(String name) {
        var key = new StringBuilder();
        for (int i = 0; i < name.length(); i++) {
            char letter = name.charAt(i);
            if (Character.isUpperCase(letter) && key.length() > 0) {
                key.append('_');
            }
            key.append(Character.toLowerCase(letter));
        }
        return key.toString();
    }
}
