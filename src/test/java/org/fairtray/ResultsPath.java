package org.fairtray;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.StreamSupport;

/**
 * A path into results.json: keys joined by dots, {@code [key=value]} after a list for the one item whose key has that
 * value, {@code [treatment=soak:8,mat:coir]} for the one item with that whole treatment. The value ends at a bracket that
 * is followed by a dot or by nothing, so that it may hold dots itself.
 */
record ResultsPath(List<Step> steps) {
    private static final Pattern STEP =
            Pattern.compile("(?<key>[^.\\[]+)(\\[(?<by>[^=]+)=(?<value>.*?)\\](?=\\.|$))?(\\.|$)");

    /** A key, and how the item of the list there is told from the others. */
    record Step(String key, Optional<String> by, Optional<String> value) {}

    /** @throws IllegalArgumentException if the text is no path */
    static ResultsPath of(String text) {
        var steps = new ArrayList<Step>();
        var matcher = STEP.matcher(text);
        int at = 0;
        while (at < text.length()) {
            if (!matcher.find(at) || matcher.start() != at) {
                throw new IllegalArgumentException(text + ": no path from character " + at);
            }
            steps.add(new Step(
                    matcher.group("key"),
                    Optional.ofNullable(matcher.group("by")),
                    Optional.ofNullable(matcher.group("value"))));
            at = matcher.end();
        }
        return new ResultsPath(List.copyOf(steps));
    }

    /** What stands there; empty where a key is missing or not exactly one item fits. */
    Optional<JsonElement> in(JsonObject results) {
        Optional<JsonElement> here = Optional.of(results);
        for (Step step : steps) {
            here = here.filter(JsonElement::isJsonObject)
                    .map(e -> e.getAsJsonObject().get(step.key));
            if (step.by.isPresent()) {
                here = here.filter(JsonElement::isJsonArray).flatMap(e -> only(step, e.getAsJsonArray()));
            }
        }
        return here;
    }

    private static Optional<JsonElement> only(Step step, JsonArray list) {
        var fitting = StreamSupport.stream(list.spliterator(), false)
                .filter(item -> fits(step, item.getAsJsonObject()))
                .toList();
        return fitting.size() == 1 ? Optional.of(fitting.get(0)) : Optional.empty();
    }

    private static boolean fits(Step step, JsonObject item) {
        String wanted = step.value.orElseThrow();
        var found = item.get(step.by.orElseThrow());
        if (found == null) {
            return false;
        }
        return found.isJsonObject() ? found.equals(treatment(wanted)) : found.equals(new JsonPrimitive(wanted));
    }

    private static JsonObject treatment(String text) {
        var treatment = new JsonObject();
        for (String level : text.split(",", -1)) {
            int colon = level.indexOf(':');
            treatment.addProperty(level.substring(0, colon), level.substring(colon + 1));
        }
        return treatment;
    }
}
