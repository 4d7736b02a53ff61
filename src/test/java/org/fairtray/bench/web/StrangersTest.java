package org.fairtray.bench.web;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.google.gson.Gson;
import java.net.Socket;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.zip.CRC32C;
import org.fairtray.bench.Refused;
import org.fairtray.bench.Trials;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What comes over the line that no page of the bench would send. */
class StrangersTest extends OpenedBench {
    private Socket line() throws Exception {
        var address = URI.create(bench.address());
        var socket = new Socket(address.getHost(), address.getPort());
        socket.setSoTimeout(60_000);
        return socket;
    }

    private String host() {
        return "Host: " + URI.create(bench.address()).getAuthority() + "\r\n";
    }

    private String answered(String ask) throws Exception {
        try (var socket = line()) {
            socket.getOutputStream().write(ask.getBytes(StandardCharsets.ISO_8859_1));
            return new String(socket.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "GET /%00 HTTP/1.1",
                "GET /assets/%2e%2e/index.html HTTP/1.1",
                "GET /trial/%ff HTTP/1.1",
                "GET /a b HTTP/1.1",
                "GET http://elsewhere.example/ HTTP/1.1",
                "OPTIONS * HTTP/1.1",
                "TRACE / HTTP/1.1",
                "DELETE /api/me HTTP/1.1",
                "GET /api/nothing HTTP/1.1",
                "GET /assets/nothing.js HTTP/1.1",
            })
    void refusalsSayNothingOfTheProgramAndHaveTheStrictHeaders(String ask) throws Exception {
        var answer = answered(ask + "\r\n" + host() + "Connection: close\r\n\r\n");
        assertTrue(answer.startsWith("HTTP/1.1 4"), answer);
        assertTrue(answer.contains("Content-Security-Policy: default-src 'none'; script-src 'self';"), answer);
        assertTrue(answer.contains("X-Content-Type-Options: nosniff"), answer);
        assertTrue(answer.contains("Cache-Control: no-store"), answer);
        assertTrue(answer.contains("{\"reason\":\""), answer);
        for (var word : List.of("jetty", "eclipse", "java.", "Exception")) {
            assertFalse(answer.contains(word), answer);
        }
        assertEquals(answer.startsWith("HTTP/1.1 405"), answer.contains("\r\nAllow: GET\r\n"), answer);
    }

    @Test
    void strangersWhoSendSlowlyKeepNobodyWaiting() throws Exception {
        var caller = in();
        var lines = new ArrayList<Socket>();
        try {
            for (int i = 0; i < 60; i++) {
                var socket = line();
                lines.add(socket);
                socket.getOutputStream()
                        .write(("POST /api/pair HTTP/1.1\r\n" + host() + "Content-Length: 50\r\n\r\n{")
                                .getBytes(StandardCharsets.US_ASCII));
            }
            long start = System.nanoTime();
            assertEquals(200, caller.get("/api/trials").statusCode());
            assertTrue(System.nanoTime() - start < 8e9, "waited for those who send slowly");
            var answer = new String(lines.get(0).getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertTrue(answer.startsWith("HTTP/1.1 408"), answer);
            assertTrue(answer.contains("That came in too slowly."), answer);
        } finally {
            for (var socket : lines) {
                socket.close();
            }
        }
    }

    @Test
    void aBodyOfUnknownLengthIsReadUpToWhatIsMeant() throws Exception {
        var chunks = ("400\r\n" + "a".repeat(1024) + "\r\n").repeat(8) + "0\r\n\r\n";
        var ask = "POST /api/pair HTTP/1.1\r\n" + host() + "Connection: close\r\nTransfer-Encoding: chunked\r\n\r\n";
        var answer = answered(ask + chunks);
        assertTrue(answer.startsWith("HTTP/1.1 413"), answer);
        assertTrue(answered(ask + "2\r\n{}\r\n0\r\n\r\n").startsWith("HTTP/1.1 403"));
    }

    @Test
    void theBenchsOwnBrowserComesInByItsOwnCodeOnce() throws Exception {
        var own = bench.opening().substring(bench.opening().indexOf('#') + 1);
        var shown = bench.code();
        assertEquals(200, new Caller(bench.address()).enter(own, "Ada").statusCode());
        assertEquals(shown, bench.code(), "the code on the terminal is used up");
        assertEquals(403, new Caller(bench.address()).enter(own, "Ben").statusCode());
        var people = new People(folder, Clock.systemUTC(), c -> {});
        assertEquals(Optional.empty(), people.enter(people.ownCode(), "Eve", false, Optional.empty()));
    }

    @Test
    void aBrowserThatComesInAnewIsInOnce() throws Exception {
        var caller = in();
        assertEquals(200, caller.enter(bench.code(), "Ada again").statusCode());
        var people = new People(folder, Clock.systemUTC(), c -> {}).all();
        assertEquals(List.of("Ada again"), people.stream().map(Person::name).toList());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"\u202eadA", "A\u0007da", "A\u2028da", "", " ", "AdaAdaAdaAdaAdaAdaAdaAdaAdaAdaAdaAdaAdaAd"})
    void aNameIsOneThatCanBeRead(String name) {
        var people = new People(folder, Clock.systemUTC(), c -> {});
        var refused = assertThrows(Refused.class, () -> people.link(name));
        assertEquals("Say who you are, in 40 letters at most.", refused.getMessage());
        assertEquals(List.of(), people.all());
    }

    @ParameterizedTest
    @ValueSource(strings = {"[null]", "[{}]", "[{\"id\": \"x\", \"role\": \"BOSS\"}]", "{", "", "null"})
    void aFileOfPeopleThatIsBrokenLetsNobodyIn(String text) throws Exception {
        Files.writeString(folder.resolve("bench-people.json"), text);
        assertEquals(List.of(), new People(folder, Clock.systemUTC(), c -> {}).all());
    }

    @Test
    void onlyNeighboursAreHeard() {
        for (var near : List.of("127.0.0.1", "192.168.1.7", "10.0.0.9", "172.20.1.1")) {
            assertTrue(Addresses.isNear(near), near);
        }
        Addresses.local().forEach(own -> assertTrue(Addresses.isNear(own), own));
        for (var far : List.of("8.8.8.8", "203.0.113.9", "2001:db8::1")) {
            assertFalse(Addresses.isNear(far), far);
        }
    }

    @Test
    void whatNoPlanCanHoldIsRefusedSoon() throws Exception {
        var levels = IntStream.range(0, 20_000).mapToObj(Integer::toString).collect(Collectors.joining(", "));
        var caller = in();
        var answer = caller.post(
                "/api/trials/beet/advice",
                new Gson().toJson(Map.of("text", PLAN.replace("levels: [0, 3]", "levels: [" + levels + "]"))));
        assertTrue(
                answer.body().contains("plan.yaml, line 4: found 20000 levels; expected at most 1000"), answer.body());
        var sown = caller.post("/api/trials/beet/sown", "{\"date\": \"+999999999-12-31\"}");
        assertEquals(400, sown.statusCode());
        assertTrue(sown.body().contains("The year of sowing, 999999999, can't be right."), sown.body());
        var counts = "{}, ".repeat(500) + "{}";
        assertEquals(
                413,
                caller.post("/api/trials/beet/counts", "{\"counts\": [" + counts + "]}")
                        .statusCode());
    }

    @Test
    void aJournalFromElsewhereLeadsToNoOtherFileByAPhotosName() throws Exception {
        assertEquals(200, in().get("/api/trials/beet/count").statusCode());
        bench.close();
        Files.createDirectories(folder.resolve("beet/photos"));
        Files.writeString(folder.resolve("secret.jpg"), "secret");
        var entry = "{\"number\":2,\"time\":\"2026-03-01T08:00:00Z\",\"what\":\"photographed\",\"id\":\"photo-1234\","
                + "\"file\":\"../../secret.jpg\",\"tray\":\"T01\",\"day\":1,\"by\":\"Eve\"}";
        var check = new CRC32C();
        check.update(entry.getBytes(StandardCharsets.UTF_8));
        Files.writeString(
                folder.resolve("beet/readings.journal"),
                "{\"crc32c\":\"" + HexFormat.of().toHexDigits((int) check.getValue()) + "\",\"entry\":" + entry + "}\n",
                StandardOpenOption.APPEND);
        try (var trials = new Trials(folder, Clock.systemUTC())) {
            var trial = trials.find("beet").orElseThrow().bench();
            assertEquals("../../secret.jpg", trial.counts(0).photos().get(0).file());
            assertEquals(Optional.empty(), trial.photo("../../secret.jpg"));
        }
        start();
    }
}
