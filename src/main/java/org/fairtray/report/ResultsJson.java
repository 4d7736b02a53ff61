package org.fairtray.report;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonNull;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * results.json: every record of the findings becomes an object, its components the keys, in their order and in
 * {@code snake_case}. The keys of maps are names of the grower's and stay as they are. A number that isn't available is
 * written as {@code null}.
 */
public final class ResultsJson {
    private static final Gson GSON = new GsonBuilder()
            .serializeNulls()
            .setPrettyPrinting()
            .disableHtmlEscaping()
            .create();

    private ResultsJson() {}

    /**
     * Findings, or any other record of results, as JSON with a line break at the end.
     *
     * @throws IllegalStateException if a number is NaN or infinite; the message names its key
     */
    public static String of(Record findings) {
        return GSON.toJson(element("", findings)) + "\n";
    }

    private static JsonElement element(String path, Object value) {
        if (value == null) {
            return JsonNull.INSTANCE;
        }
        if (value instanceof Number number) {
            return number(path, number);
        }
        if (value instanceof String text) {
            return new JsonPrimitive(text);
        }
        if (value instanceof Boolean yes) {
            return new JsonPrimitive(yes);
        }
        if (value instanceof List<?> list) {
            return array(path, list);
        }
        if (value instanceof Map<?, ?> map) {
            return map(path, map);
        }
        if (value instanceof Record fields) {
            return object(path, fields);
        }
        throw new IllegalStateException(
                path + " is a " + value.getClass().getName() + ": expected a record, list, map, text or number");
    }

    private static JsonPrimitive number(String path, Number number) {
        if (!Double.isFinite(number.doubleValue())) {
            throw new IllegalStateException(path + " is " + number + ": expected a finite number or null");
        }
        return new JsonPrimitive(number);
    }

    private static JsonArray array(String path, List<?> list) {
        var array = new JsonArray(list.size());
        for (int i = 0; i < list.size(); i++) {
            array.add(element(path + "[" + i + "]", list.get(i)));
        }
        return array;
    }

    private static JsonObject map(String path, Map<?, ?> map) {
        var object = new JsonObject();
        map.forEach((key, value) -> object.add(key.toString(), element(join(path, key.toString()), value)));
        return object;
    }

    private static JsonObject object(String path, Record fields) {
        var object = new JsonObject();
        for (var component : fields.getClass().getRecordComponents()) {
            var key = snake(component.getName());
            object.add(key, element(join(path, key), read(component, fields)));
        }
        return object;
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
        return name.replaceAll("(?<=.)(\\p{Lu})", "_$1").toLowerCase(Locale.ROOT);
    }
}
