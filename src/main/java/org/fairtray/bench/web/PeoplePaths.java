package org.fairtray.bench.web;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/** Who is in, and how one comes in. */
final class PeoplePaths {
    /** Ten tries at once, then one in twelve seconds, from one address; and thirty from all. */
    private final Tries byAddress = new Tries(10, 1 / 12.0);

    private final Tries byAll = new Tries(30, 0.5);
    private final People people;
    private final Optional<String> shared;

    /** @param shared the address for phones, where the bench is shared */
    PeoplePaths(People people, Optional<String> shared) {
        this.people = people;
        this.shared = shared;
    }

    List<Route> routes() {
        return List.of(
                Route.of("POST", "/api/pair", null, this::enter),
                Route.of("GET", "/api/me", Role.LOOK, this::me),
                Route.of("GET", "/api/people", Role.HOST, ask -> Answer.json(who())),
                Route.of("GET", "/api/pairing.svg", Role.HOST, ask -> pairing()),
                Route.of("POST", "/api/links", Role.HOST, this::link),
                Route.of("DELETE", "/api/people/*", Role.HOST, this::remove));
    }

    private record Code(String code, String name) {}

    private Answer enter(Ask ask) {
        if (!byAddress.take(ask.remote()) || !byAll.take("all")) {
            return Answer.refusal(429, "That was tried too often. Wait a minute, then try again.")
                    .with("Retry-After", "60");
        }
        var given = ask.json(Code.class);
        var key =
                given.code() == null ? Optional.<String>empty() : people.enter(given.code(), given.name(), ask.here());
        return key.map(k -> Answer.done()
                        .with(
                                "Set-Cookie",
                                Doorway.COOKIE + "=" + k + "; Path=/; Max-Age=2592000; HttpOnly; SameSite=Strict"))
                .orElseGet(() -> Answer.refusal(
                        403, "That isn't the code of the moment. Each code lets one phone in; look for the new one."));
    }

    private record Me(String name, String role, String token, boolean shared) {}

    private Answer me(Ask ask) {
        var person = ask.person();
        return Answer.json(new Me(person.name(), person.role().word(), person.token(), shared.isPresent()));
    }

    private record In(String id, String name, String role, String since) {}

    private record Share(String url, String code, String qr) {}

    private record Who(List<In> here, Share share) {}

    private Who who() {
        var in = people.all().stream()
                .map(p -> new In(p.id(), p.name(), p.role().word(), p.since()))
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

    private record Link(String url) {}

    private Answer link(Ask ask) {
        return shared.map(url -> Answer.json(new Link(
                        url + "/pair#" + people.link(ask.json(Name.class).name()))))
                .orElseGet(() -> Answer.refusal(409, "This bench isn't shared. Start it with --share for helpers."));
    }

    private Answer remove(Ask ask) {
        return people.remove(ask.part(0)) ? Answer.done() : Answer.refusal(404, "Nobody of that kind is in.");
    }
}
