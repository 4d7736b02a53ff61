package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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

    /** Something wrong with a file, for pages. */
    private record Trouble(String file, int line, String found, String expected, String nearest, String sentence) {
        static Trouble of(Problem problem) {
            return new Trouble(
                    problem.file(),
                    problem.line(),
                    problem.found(),
                    problem.expected(),
                    problem.nearest().orElse(null),
                    problem.describe());
        }
    }

    private record Refusal(String reason, List<Trouble> problems) {}

    static Object troubles(List<Problem> problems) {
        return problems.stream().map(Trouble::of).toList();
    }

    static Answer refusal(int status, String reason) {
        return json(status, new Refusal(reason, List.of()));
    }

    static Answer refusal(int status, String reason, List<Problem> problems) {
        return json(
                status, new Refusal(reason, problems.stream().map(Trouble::of).toList()));
    }
}
