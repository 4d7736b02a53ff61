package org.fairtray.bench.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Who comes in at the bench, and what may be asked. */
class DoorwayTest extends OpenedBench {
    private static final String COUNT = """
            {"counts": [{"id": "%s", "tray": "%s", "day": 1, "frame": 1, "seen": 0, "values": {"germinated": "%s"}}]}""";

    @Test
    void nobodyIsHeardWithoutTheCode() throws Exception {
        var stranger = new Caller(bench.address());
        for (var path :
                List.of("/api/me", "/api/trials", "/api/trials/beet/count", "/api/trials/beet/files/layout.csv")) {
            assertEquals(401, stranger.get(path).statusCode(), path);
        }
        assertEquals(
                401,
                stranger.post("/api/trials/beet/counts", COUNT.formatted("count-0001", "T01", "5"))
                        .statusCode());
    }

    @Test
    void aCodeLetsOneInOnce() throws Exception {
        var code = bench.code();
        assertEquals(
                200,
                new Caller(bench.address())
                        .enter(code.toLowerCase(java.util.Locale.ROOT), "Ada")
                        .statusCode());
        var refused = new Caller(bench.address()).enter(code, "Ben");
        assertEquals(403, refused.statusCode());
        assertTrue(refused.body().contains("That isn't the code of the moment."), refused.body());
        assertEquals(List.of(bench.code()), codes);
    }

    @Test
    void codesCannotBeTriedForLong() throws Exception {
        var guesser = new Caller(bench.address());
        for (int i = 0; i < 10; i++) {
            assertEquals(403, guesser.enter("AAAA-AAA" + i, "Eve").statusCode());
        }
        assertEquals(429, guesser.enter(bench.code(), "Eve").statusCode());
    }

    @Test
    void theKeyIsForTheBenchAloneAndNotKept() throws Exception {
        var caller = new Caller(bench.address());
        var cookie = caller.enter(bench.code(), "Ada")
                .headers()
                .firstValue("Set-Cookie")
                .orElseThrow();
        assertTrue(cookie.endsWith("; Path=/; Max-Age=2592000; HttpOnly; SameSite=Strict"), cookie);
        var key = cookie.substring(cookie.indexOf('=') + 1, cookie.indexOf(';'));
        var people = Files.readString(folder.resolve("bench-people.json"));
        assertTrue(people.contains("Ada"), people);
        assertFalse(people.contains(key), people);
    }

    @Test
    void whoIsInStaysInWhenTheBenchIsStartedAnew() throws Exception {
        in();
        bench.close();
        var before = Files.readString(folder.resolve("bench-people.json"));
        start();
        assertTrue(before.contains("Ada"));
        assertEquals(1, new People(folder, Clock.systemUTC(), c -> {}).all().size());
    }

    @Test
    void aChangeNeedsTheTokenAndOurOwnPage() throws Exception {
        var caller = in();
        var body = "{\"date\": \"2026-03-01\"}";
        var token = Map.of("X-Bench-Token", caller.token());
        var path = "/api/trials/beet/sown";
        assertEquals(403, caller.send("POST", path, body, Map.of()).statusCode(), "no token");
        assertEquals(
                403,
                caller.send("POST", path, body, Map.of("X-Bench-Token", "x")).statusCode(),
                "another token");
        for (var from : List.of(
                "http://elsewhere.example",
                "https://" + URI.create(bench.address()).getAuthority(),
                "null")) {
            var headers = Map.of("X-Bench-Token", caller.token(), "Origin", from);
            assertEquals(403, caller.send("POST", path, body, headers).statusCode(), from);
        }
        var crossSite = Map.of("X-Bench-Token", caller.token(), "Sec-Fetch-Site", "cross-site");
        assertEquals(403, caller.send("POST", path, body, crossSite).statusCode());
        assertEquals(200, caller.send("POST", path, body, token).statusCode());
    }

    @Test
    void onlyItsOwnNamesAreAnsweredTo() throws Exception {
        var address = URI.create(bench.address());
        try (var socket = new Socket(address.getHost(), address.getPort())) {
            socket.getOutputStream()
                    .write("GET / HTTP/1.1\r\nHost: elsewhere.example\r\nConnection: close\r\n\r\n"
                            .getBytes(StandardCharsets.US_ASCII));
            var answer = new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertTrue(answer.startsWith("HTTP/1.1 421"), answer);
        }
    }

    @Test
    void whoLooksOnMayNotCount() throws Exception {
        var people = new People(folder.resolve("beet"), Clock.systemUTC(), c -> {});
        var key = people.link("Helper");
        assertEquals(Role.LOOK, people.person(key).orElseThrow().role());
        assertEquals(Optional.of(key), people.enter(key, "x", true, Optional.empty()));
        assertFalse(Role.LOOK.may(Role.COUNT));
        assertFalse(Role.COUNT.may(Role.HOST));
        assertTrue(Role.HOST.may(Role.COUNT));
    }

    @Test
    void everyAnswerHasStrictHeaders() throws Exception {
        for (var path : List.of("/", "/trial/beet", "/assets/shell.js", "/api/me")) {
            var headers = new Caller(bench.address()).get(path).headers();
            var rules = headers.firstValue("Content-Security-Policy").orElse("");
            assertTrue(
                    rules.startsWith("default-src 'none'; script-src 'self'; style-src 'self';"), path + ": " + rules);
            assertEquals("nosniff", headers.firstValue("X-Content-Type-Options").orElse(""), path);
            assertEquals("no-referrer", headers.firstValue("Referrer-Policy").orElse(""), path);
            assertEquals(Optional.empty(), headers.firstValue("Server"), path);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "/api/trials/..%2Fsecret/plan",
                "/api/trials/beet/files/..%2F..%2Fsecret.txt",
                "/api/trials/beet/files/plan.yaml",
                "/api/trials/beet/files/readings.journal",
                "/api/trials/beet/photos/..%2Fplan.yaml",
                "/assets/..%2F..%2Fdemo.yaml",
                "/assets/vendored/..%2Findex.html",
            })
    void noPathLeadsToAFileThatIsNotMeant(String path) throws Exception {
        Files.writeString(folder.resolve("secret.txt"), "secret");
        var answer = in().get(path);
        assertTrue(answer.statusCode() >= 400, answer.statusCode() + " " + answer.body());
        assertFalse(answer.body().contains("factors"), answer.body());
    }

    @Test
    void aTrialThatIsNotThereIsNotFound() throws Exception {
        var answer = in().get("/api/trials/radish/count");
        assertEquals(404, answer.statusCode());
        assertTrue(answer.body().contains("There is no trial 'radish' here."), answer.body());
    }

    @ParameterizedTest
    @ValueSource(strings = {"../out", "a/b", "A", ".hidden", "", "a b", "con\\x"})
    void noNameOfATrialIsTakenForAPath(String name) throws Exception {
        var body = new com.google.gson.Gson().toJson(Map.of("name", name, "plan", PLAN));
        var answer = in().post("/api/trials", body);
        assertEquals(409, answer.statusCode(), answer.body());
        assertTrue(answer.body().contains("A trial's name has small letters, digits and hyphens"), answer.body());
    }

    @Test
    void tooMuchAtOnceIsRefused() throws Exception {
        var caller = in();
        assertEquals(
                413, caller.post("/api/trials/beet/advice", "x".repeat(600_000)).statusCode());
        assertEquals(400, caller.post("/api/trials/beet/advice", "{").statusCode());
        assertEquals(400, caller.post("/api/trials/beet/advice", "").statusCode());
        boolean refused = false;
        // On a busy computer the first few hundred may come in as slowly as they are allowed to.
        for (int round = 0; round < 20 && !refused; round++) {
            refused = caller.atOnce("/api/me", 400).contains(429);
        }
        assertTrue(refused, "8000 asks, 400 at a time, were all answered");
    }

    @Test
    void whatTraysGotStaysSealed() throws Exception {
        var caller = in();
        var sheet = caller.get("/api/trials/beet/count").body();
        assertFalse(sheet.contains("cover"), sheet);
        for (var file : List.of("layout.csv", "key.pdf", "results.json", "report.html")) {
            assertEquals(409, caller.get("/api/trials/beet/files/" + file).statusCode(), file);
        }
        assertEquals(
                409,
                caller.get("/api/trials/beet/curves/treatment/germinated.svg").statusCode());
        assertEquals(409, caller.post("/api/trials/beet/open", "{}").statusCode(), "nothing is counted yet");
        assertEquals(
                200,
                caller.post("/api/trials/beet/counts", COUNT.formatted("count-0001", "T01", "5"))
                        .statusCode());
        assertEquals(200, caller.post("/api/trials/beet/open", "{}").statusCode());
        assertEquals(200, caller.get("/api/trials/beet/files/layout.csv").statusCode());
    }

    @Test
    void theSameCountTwiceIsKeptOnceAndAnImpossibleOneIsRefused() throws Exception {
        var caller = in();
        var path = "/api/trials/beet/counts";
        var count = COUNT.formatted("count-0001", "T01", "5");
        assertTrue(caller.post(path, count).body().contains("\"status\":\"kept\""));
        assertTrue(caller.post(path, count).body().contains("\"status\":\"known\""));
        var refused =
                caller.post(path, COUNT.formatted("count-0002", "T02", "51")).body();
        assertTrue(
                refused.contains("germinated 51 on day 1 can't be right: expected at most 50, the seeds sown."),
                refused);
        var lines = Files.readAllLines(folder.resolve("beet/readings.journal"));
        assertEquals(2, lines.size(), lines.toString());
    }

    @Test
    void noLayoutIsDrawnAndNoPlanChangedOnceSomethingIsCounted() throws Exception {
        var caller = in();
        assertEquals(
                200, caller.post("/api/trials/beet/lay", "{\"seed\": \"8\"}").statusCode());
        caller.post("/api/trials/beet/counts", COUNT.formatted("count-0001", "T01", "5"));
        var layout = Files.readString(folder.resolve("beet/layout.csv"));
        var refused = caller.post("/api/trials/beet/lay", "{\"seed\": \"9\"}");
        assertEquals(409, refused.statusCode());
        assertTrue(refused.body().contains("The layout can't be drawn again: counting has begun."), refused.body());
        assertEquals(layout, Files.readString(folder.resolve("beet/layout.csv")));
    }
}
