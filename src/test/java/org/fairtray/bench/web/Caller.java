package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Someone who asks a bench as a browser would, by hand. */
public final class Caller {
    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    private final String bench;
    private String cookie = "";
    private String token = "";

    /** @param bench its address */
    public Caller(String bench) {
        this.bench = bench;
    }

    /** Comes in by a code. */
    public HttpResponse<String> enter(String code, String name) throws IOException, InterruptedException {
        var answer = send("POST", "/api/pair", new Gson().toJson(Map.of("code", code, "name", name)), Map.of());
        answer.headers().firstValue("Set-Cookie").ifPresent(c -> cookie = c.substring(0, c.indexOf(';')));
        if (answer.statusCode() == 200) {
            token = new Gson()
                    .fromJson(get("/api/me").body(), JsonObject.class)
                    .get("token")
                    .getAsString();
        }
        return answer;
    }

    public HttpResponse<String> get(String path) throws IOException, InterruptedException {
        return send("GET", path, null, Map.of());
    }

    /** A file as it comes. */
    byte[] bytes(String path) throws IOException, InterruptedException {
        var answer = CLIENT.send(request("GET", path, null, Map.of()), BodyHandlers.ofByteArray());
        return answer.statusCode() == 200 ? answer.body() : new byte[0];
    }

    public HttpResponse<String> post(String path, String body) throws IOException, InterruptedException {
        return send("POST", path, body, Map.of("X-Bench-Token", token));
    }

    /** Asks the same many times at once; the states of the answers. */
    Set<Integer> atOnce(String path, int times) {
        var request = request("GET", path, null, Map.of());
        return Stream.generate(() -> CLIENT.sendAsync(request, BodyHandlers.ofString())).limit(times).toList().stream()
                .map(answer -> answer.join().statusCode())
                .collect(Collectors.toSet());
    }

    HttpResponse<String> send(String method, String path, String body, Map<String, String> headers)
            throws IOException, InterruptedException {
        return CLIENT.send(request(method, path, body, headers), BodyHandlers.ofString());
    }

    private HttpRequest request(String method, String path, String body, Map<String, String> headers) {
        var request = HttpRequest.newBuilder(URI.create(bench + path))
                .method(method, body == null ? BodyPublishers.noBody() : BodyPublishers.ofString(body));
        if (!cookie.isEmpty()) {
            request.header("Cookie", cookie);
        }
        headers.forEach(request::header);
        return request.build();
    }

    String token() {
        return token;
    }
}
