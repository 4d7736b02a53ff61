package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.fairtray.bench.planning.Advice;
import org.fairtray.files.Problem;

/**
 * What the bench answers.
 *
 * @param headers besides those that every answer has
 */
record Answer(int status, String type, byte[] body, Map<String, String> headers) {
    private static final Gson GSON =
            new GsonBuilder().serializeNulls().disableHtmlEscaping().create();

    static Answer json(Object value) {
        return json(200, value);
    }

    /** Several records as one, each with keys of its own. */
    static Answer joined(Record... parts) {
        var all = new JsonObject();
        for (var part : parts) {
            GSON.toJsonTree(part).getAsJsonObject().entrySet().forEach(e -> all.add(e.getKey(), e.getValue()));
        }
        return json(all);
    }

    static Answer done() {
        return json(Map.of());
    }

    private static Answer json(int status, Object value) {
        return new Answer(
                status,
                "application/json; charset=utf-8",
                GSON.toJson(value).getBytes(StandardCharsets.UTF_8),
                Map.of());
    }

    static Answer of(String type, byte[] body) {
        return new Answer(200, type, body, Map.of());
    }

    Answer with(String header, String value) {
        var more = new HashMap<>(headers);
        more.put(header, value);
        return new Answer(status, type, body, more);
    }

    private record Refusal(String reason, List<Advice.Trouble> problems) {}

    static Answer refusal(int status, String reason) {
        return json(status, new Refusal(reason, List.of()));
    }

    static Answer refusal(int status, String reason, List<Problem> problems) {
        return json(
                status,
                new Refusal(reason, problems.stream().map(Advice.Trouble::of).toList()));
    }
}
