package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.JsonParseException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * What a page asks.
 *
 * @param person who asks; null where they aren't in
 * @param here whether they sit at the bench's own computer
 * @param remote their address
 * @param parts what stands in the path where it differs from one ask to the next
 */
record Ask(Person person, boolean here, String remote, List<String> parts, byte[] body) {
    private static final Gson GSON = new Gson();

    String part(int index) {
        return parts.get(index);
    }

    /**
     * The body, as JSON.
     *
     * @throws JsonParseException if it is something else
     */
    <T> T json(Class<T> type) {
        var value = GSON.fromJson(new String(body, StandardCharsets.UTF_8), type);
        if (value == null) {
            throw new JsonParseException("nothing was sent");
        }
        return value;
    }
}
