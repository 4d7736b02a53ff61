package org.fairtray.sharing;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Where two results.json differ, by path, the first few of them. Numbers count as the same where they agree in nine digits: processors
 * round differently at the end of a long calculation.
 */
final class Differences {
    private static final double RELATIVE = 1e-9;
    /** Below this a number is what rounding leaves of zero. */
    private static final double ZERO = 1e-12;

    private final Set<String> passedOver;
    private final List<String> paths = new ArrayList<>();

    private Differences(Set<String> passedOver) {
        this.passedOver = passedOver;
    }

    /**
     * The paths, in order.
     *
     * @param passedOver keys at the top that may differ
     */
    static List<String> between(JsonObject one, JsonObject other, Set<String> passedOver) {
        var found = new Differences(passedOver);
        found.objects("", one, other);
        return found.paths;
    }

    private void objects(String path, JsonObject one, JsonObject other) {
        var keys = new LinkedHashSet<>(one.keySet());
        keys.addAll(other.keySet());
        for (var key : keys) {
            if (!path.isEmpty() || !passedOver.contains(key)) {
                values(path.isEmpty() ? key : path + "." + key, one.get(key), other.get(key));
            }
        }
    }

    private void values(String path, JsonElement one, JsonElement other) {
        if (one instanceof JsonObject a && other instanceof JsonObject b) {
            objects(path, a, b);
        } else if (one instanceof JsonArray a && other instanceof JsonArray b && a.size() == b.size()) {
            for (int i = 0; i < a.size(); i++) {
                values(path + "[" + i + "]", a.get(i), b.get(i));
            }
        } else if (!same(one, other)) {
            paths.add(path);
        }
    }

    private static boolean same(JsonElement one, JsonElement other) {
        if (one instanceof JsonPrimitive a && other instanceof JsonPrimitive b && a.isNumber() && b.isNumber()) {
            double x = a.getAsDouble();
            double y = b.getAsDouble();
            return Math.abs(x - y) <= Math.max(ZERO, RELATIVE * Math.max(Math.abs(x), Math.abs(y)));
        }
        return one != null && one.equals(other);
    }
}
