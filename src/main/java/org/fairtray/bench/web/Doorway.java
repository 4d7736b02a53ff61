package org.fairtray.bench.web;

import com.google.gson.JsonParseException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.regex.Matcher;
import java.util.stream.IntStream;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.io.Content;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.fairtray.bench.Refused;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.ProblemsException;
import org.fairtray.journal.NotKeptException;

/**
 * Where every ask comes in: whether it comes from a page of this bench, by someone who may, not too often, with not too
 * much; and the headers that each answer has.
 */
final class Doorway extends Handler.Abstract {
    static final String COOKIE = "bench";
    private static final String PAGE_RULES = "default-src 'none'; script-src 'self'; style-src 'self';"
            + " img-src 'self' blob:; connect-src 'self'; frame-src 'self'; worker-src 'self'; manifest-src 'self';"
            + " form-action 'self'; base-uri 'none'; frame-ancestors 'self'";
    private static final Map<String, String> HEADERS = Map.of(
            "X-Content-Type-Options", "nosniff",
            "X-Frame-Options", "SAMEORIGIN",
            "Referrer-Policy", "no-referrer",
            "Cross-Origin-Opener-Policy", "same-origin",
            "Cross-Origin-Resource-Policy", "same-origin",
            "Permissions-Policy", "geolocation=(), microphone=(), camera=(self)");

    private final List<Route> routes;
    private final People people;
    private final Set<String> hosts;
    private final Consumer<Throwable> onDefect;
    private final Tries asks = new Tries(200, 40);

    /**
     * @param hosts the names and addresses, with port, under which this bench may be asked
     * @param onDefect is told what went wrong by a fault of ours
     */
    Doorway(List<Route> routes, People people, Set<String> hosts, Consumer<Throwable> onDefect) {
        this.routes = routes;
        this.people = people;
        this.hosts = hosts;
        this.onDefect = onDefect;
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        Answer answer;
        try {
            answer = answer(request);
        } catch (ProblemsException e) {
            answer = Answer.refusal(400, "Something is wrong with a file of this trial.", e.problems());
        } catch (DoesNotFitException e) {
            answer = Answer.refusal(409, String.join(" ", e.reasons()));
        } catch (Refused e) {
            answer = Answer.refusal(409, e.getMessage());
        } catch (NotKeptException e) {
            answer = Answer.refusal(507, e.getMessage());
        } catch (TooLarge e) {
            answer = Answer.refusal(413, "That is too large: " + e.getMessage() + ".");
        } catch (JsonParseException | IOException e) {
            answer = Answer.refusal(400, "The bench couldn't make sense of what was sent.");
        } catch (RuntimeException e) {
            onDefect.accept(e);
            answer = Answer.refusal(500, "That is a fault of the program, not yours. What was kept before is safe.");
        }
        send(answer, response, callback);
        return true;
    }

    private Answer answer(Request request) throws IOException {
        var host =
                Optional.ofNullable(request.getHeaders().get(HttpHeader.HOST)).orElse("");
        if (!hosts.contains(host)) {
            return Answer.refusal(421, "This bench doesn't answer to the name '" + host + "'.");
        }
        var path = request.getHttpURI().getDecodedPath();
        boolean reads = request.getMethod().equals("GET");
        if (path.startsWith("/api/")) {
            return asked(request, path, host, reads);
        }
        if (!reads) {
            return Answer.refusal(405, "Pages can only be read.");
        }
        return page(path);
    }

    private static Answer page(String path) {
        if (path.startsWith("/assets/")) {
            return Assets.find(path.substring("/assets/".length()))
                    .orElseGet(() -> Answer.refusal(404, "There is no such file."));
        }
        var name = path.equals("/sw.js") ? "sw.js" : "index.html";
        return Assets.find(name).orElseThrow();
    }

    private Answer asked(Request request, String path, String host, boolean reads) throws IOException {
        var person = key(request).flatMap(people::person);
        boolean elsewhere = false;
        for (var route : routes) {
            var matcher = route.path().matcher(path);
            if (!matcher.matches()) {
                continue;
            }
            if (!route.method().equals(request.getMethod())) {
                elsewhere = true;
                continue;
            }
            var refusal = refused(request, route, person, host, reads);
            return refusal.isPresent() ? refusal.get() : route.answer().apply(ask(request, route, person, matcher));
        }
        return elsewhere
                ? Answer.refusal(405, "That can't be asked in this way.")
                : Answer.refusal(404, "The bench doesn't know what that is.");
    }

    private Optional<Answer> refused(
            Request request, Route route, Optional<Person> person, String host, boolean reads) {
        if (!reads && !fromOurPage(request, host)) {
            return Optional.of(Answer.refusal(403, "That came from a page that isn't of this bench."));
        }
        if (route.needed() == null) {
            return Optional.empty();
        }
        if (person.isEmpty()) {
            return Optional.of(Answer.refusal(401, "This browser isn't paired with the bench."));
        }
        if (!asks.take(person.get().id())) {
            return Optional.of(Answer.refusal(429, "That is too much at once. Wait a second.")
                    .with("Retry-After", "1"));
        }
        if (!person.get().role().may(route.needed())) {
            return Optional.of(Answer.refusal(
                    403,
                    route.needed() == Role.HOST
                            ? "Only at the computer on which the bench runs."
                            : "This link is for looking on."));
        }
        var token =
                Optional.ofNullable(request.getHeaders().get("X-Bench-Token")).orElse("");
        return reads || Secrets.same(token, person.get().token())
                ? Optional.empty()
                : Optional.of(Answer.refusal(403, "This page is an old one. Load it anew."));
    }

    private static boolean fromOurPage(Request request, String host) {
        var origin = request.getHeaders().get(HttpHeader.ORIGIN);
        var site = request.getHeaders().get("Sec-Fetch-Site");
        return (origin == null || origin.equals("http://" + host)) && (site == null || site.equals("same-origin"));
    }

    private static Optional<String> key(Request request) {
        return Request.getCookies(request).stream()
                .filter(c -> c.getName().equals(COOKIE))
                .map(c -> c.getValue())
                .findFirst();
    }

    private static Ask ask(Request request, Route route, Optional<Person> person, Matcher matcher) throws IOException {
        byte[] body;
        try (var in = Content.Source.asInputStream(request)) {
            body = in.readNBytes(route.largest() + 1);
        }
        if (body.length > route.largest()) {
            throw new TooLarge(route.largest());
        }
        var parts = IntStream.rangeClosed(1, matcher.groupCount())
                .mapToObj(matcher::group)
                .toList();
        return new Ask(
                person.orElse(null),
                BenchServer.isHere(Request.getRemoteAddr(request)),
                Request.getRemoteAddr(request),
                parts,
                body);
    }

    private static void send(Answer answer, Response response, Callback callback) {
        response.setStatus(answer.status());
        var headers = response.getHeaders();
        HEADERS.forEach(headers::put);
        headers.put("Content-Security-Policy", PAGE_RULES);
        headers.put(HttpHeader.CACHE_CONTROL, "no-store");
        headers.put(HttpHeader.CONTENT_TYPE, answer.type());
        answer.headers().forEach((name, value) -> headers.put(new HttpField(name, value)));
        response.write(true, ByteBuffer.wrap(answer.body()), callback);
    }
}
