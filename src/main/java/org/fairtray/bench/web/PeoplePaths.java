package org.fairtray.bench.web;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/** Who is in, and how one comes in. */
final class PeoplePaths {
    private static final int LARGEST_CODE = 2048;
    /** No code to type is as long; a link's key is. */
    private static final int LONGEST_CODE = 20;

    /** Ten tries at once, then one in twelve seconds, from one address; and thirty from all. */
    private final Tries byAddress = new Tries(10, 1 / 12.0);

    private final Tries byAll = new Tries(30, 0.5);
    private final People people;
    private final Optional<String> shared;
    private final String cookie;

    /**
     * @param shared the address for phones, where the bench is shared
     * @param cookie the name of the cookie that holds a browser's key
     */
    PeoplePaths(People people, Optional<String> shared, String cookie) {
        this.people = people;
        this.shared = shared;
        this.cookie = cookie;
    }

    List<Route> routes() {
        return List.of(
                Route.of("POST", "/api/pair", null, this::enter).upTo(LARGEST_CODE),
                Route.of("GET", "/api/me", Role.LOOK, this::me),
                Route.of("GET", "/api/people", Role.HOST, ask -> Answer.json(who(ask.person()))),
                Route.of("GET", "/api/pairing.svg", Role.HOST, ask -> pairing()),
                Route.of("POST", "/api/links", Role.HOST, this::link),
                Route.of("DELETE", "/api/people/*", Role.HOST, this::remove));
    }

    private record Code(String code, String name) {}

    private Answer enter(Ask ask) {
        if (!byAddress.take(ask.remote()) || !(ask.here() || byAll.take("all"))) {
            return Answer.refusal(429, "That was tried too often. Wait a minute, then try again.")
                    .with("Retry-After", "60");
        }
        var given = ask.json(Code.class);
        var code = given.code() == null ? "" : given.code();
        return people.enter(code, given.name(), ask.here(), Optional.ofNullable(ask.person()))
                .map(key -> Answer.done()
                        .with(
                                "Set-Cookie",
                                cookie + "=" + key + "; Path=/; Max-Age=2592000; HttpOnly; SameSite=Strict"))
                .orElseGet(() -> Answer.refusal(
                        403,
                        code.length() > LONGEST_CODE
                                ? "This link isn't good any more, or wasn't copied whole. Ask for a new one."
                                : "That isn't the code of the moment. Each code lets one phone in; look for the new"
                                        + " one."));
    }

    private record Me(String name, String role, String token, boolean shared) {}

    private Answer me(Ask ask) {
        var person = ask.person();
        return Answer.json(new Me(person.name(), person.role().word(), person.token(), shared.isPresent()));
    }

    private record In(String id, String name, String role, String since, boolean you) {}

    private record Share(String url, String code, String qr) {}

    private record Who(List<In> here, Share share) {}

    private Who who(Person asking) {
        var in = people.all().stream()
                .map(p -> new In(p.id(), p.name(), p.role().word(), p.since(), p.id().equals(asking.id())))
                .toList();
        return new Who(
                in,
                shared.map(url -> new Share(url, people.code(), "/api/pairing.svg"))
                        .orElse(null));
    }

    private Answer pairing() {
        return shared.map(url -> new CameraCode(url + "/pair#" + people.code()).svg())
                .map(svg -> Answer.of("image/svg+xml", svg.getBytes(StandardCharsets.UTF_8)))
                .orElseGet(() -> Answer.refusal(409, "This bench isn't shared. Start it with --share for phones."));
    }

    private record Name(String name) {}

    /** @param picture the same for a camera, as SVG */
    private record Link(String url, String picture) {}

    private Answer link(Ask ask) {
        return shared.map(
                        url -> url + "/pair#" + people.link(ask.json(Name.class).name()))
                .map(link -> Answer.json(new Link(link, new CameraCode(link).svg())))
                .orElseGet(() -> Answer.refusal(409, "This bench isn't shared. Start it with --share for helpers."));
    }

    private Answer remove(Ask ask) {
        return people.remove(ask.part(0)) ? Answer.done() : Answer.refusal(404, "Nobody of that kind is in.");
    }
}
