package org.fairtray.bench.web;

import com.google.gson.JsonParseException;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.regex.Matcher;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Handler;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;
import org.fairtray.bench.Refused;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.ProblemsException;
import org.fairtray.journal.NotKeptException;

/**
 * Where every ask comes in: whether it comes from nearby, from a page of this bench, by someone who may, not too often, with
 * not too much.
 */
final class Doorway extends Handler.Abstract {
    private static final String OURS = "That is a fault of the program, not yours. What was kept before is safe.";

    private final List<Route> routes;
    private final People people;
    private final Set<String> hosts;
    private final String cookie;
    private final Consumer<Throwable> onDefect;
    private final Tries asks = new Tries(200, 40);

    /**
     * @param hosts the names and addresses, with port, under which this bench may be asked
     * @param cookie the name of the cookie that holds a browser's key
     * @param onDefect is told what went wrong by a fault of ours
     */
    Doorway(List<Route> routes, People people, Set<String> hosts, String cookie, Consumer<Throwable> onDefect) {
        this.routes = routes;
        this.people = people;
        this.hosts = hosts;
        this.cookie = cookie;
        this.onDefect = onDefect;
    }

    /** What is asked, by whom; let in so far. */
    private record LetIn(Route route, Person person, Request request, List<String> parts) {}

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        var body = new Body(request, response, callback);
        body.send(answered(() -> {
            var host = checkedHost(request);
            var path =
                    Optional.ofNullable(request.getHttpURI().getDecodedPath()).orElse("");
            if (!path.startsWith("/api/")) {
                return Optional.of(page(request, path));
            }
            var in = letIn(request, path, host);
            if (reads(request)) {
                return Optional.of(answer(in, new byte[0]));
            }
            body.read(in);
            return Optional.empty();
        }));
        return true;
    }

    /** The rest of an ask, and the way back to who asked. */
    private final class Body {
        private final Request request;
        private final Response response;
        private final Callback callback;

        Body(Request request, Response response, Callback callback) {
            this.request = request;
            this.response = response;
            this.callback = callback;
        }

        /** Answers when all is there, on whichever thread that comes. */
        void read(LetIn in) {
            Bodies.read(
                    request,
                    in.route().largest(),
                    bytes -> send(answered(() -> Optional.of(answer(in, bytes)))),
                    away -> send(Optional.of(away.answer())));
        }

        void send(Optional<Answer> answer) {
            answer.ifPresent(a -> Rules.send(a, response, callback));
        }
    }

    private Optional<Answer> answered(Supplier<Optional<Answer>> work) {
        try {
            return work.get();
        } catch (TurnedAway e) {
            return Optional.of(e.answer());
        } catch (ProblemsException e) {
            return refusal(400, "Something is wrong with a file of this trial.", e);
        } catch (DoesNotFitException e) {
            return refusal(409, String.join(" ", e.reasons()));
        } catch (Refused e) {
            return refusal(409, e.getMessage());
        } catch (NotKeptException e) {
            return refusal(507, e.getMessage());
        } catch (JsonParseException e) {
            return refusal(400, "The bench couldn't make sense of what was sent.");
        } catch (StackOverflowError e) {
            return refusal(400, "What was sent is nested too deeply.");
        } catch (RuntimeException e) {
            onDefect.accept(e);
            return refusal(500, OURS);
        }
    }

    private static Optional<Answer> refusal(int status, String reason) {
        return Optional.of(Answer.refusal(status, reason));
    }

    private static Optional<Answer> refusal(int status, String reason, ProblemsException problems) {
        return Optional.of(Answer.refusal(status, reason, problems.problems()));
    }

    private String checkedHost(Request request) {
        if (!Addresses.isNear(Request.getRemoteAddr(request))) {
            throw new TurnedAway(403, "This bench is for its own network alone.");
        }
        var host =
                Optional.ofNullable(request.getHeaders().get(HttpHeader.HOST)).orElse("");
        if (!hosts.contains(host)) {
            throw new TurnedAway(421, "This bench doesn't answer to the name '" + host + "'.");
        }
        return host;
    }

    private static boolean reads(Request request) {
        return request.getMethod().equals("GET");
    }

    private Answer page(Request request, String path) {
        if (!reads(request)) {
            throw notSo("Pages can only be read.", "GET");
        }
        refuseHaste(key(request).flatMap(people::person), request);
        if (path.startsWith("/assets/")) {
            return Assets.find(path.substring("/assets/".length()))
                    .orElseGet(() -> Answer.refusal(404, "There is no such file."));
        }
        return Assets.find(path.equals("/sw.js") ? "sw.js" : "index.html").orElseThrow();
    }

    private static TurnedAway notSo(String reason, String methods) {
        return new TurnedAway(Answer.refusal(405, reason).with("Allow", methods));
    }

    private LetIn letIn(Request request, String path, String host) {
        var fitting =
                routes.stream().filter(r -> r.path().matcher(path).matches()).toList();
        if (fitting.isEmpty()) {
            throw new TurnedAway(404, "The bench doesn't know what that is.");
        }
        var route = fitting.stream()
                .filter(r -> r.method().equals(request.getMethod()))
                .findFirst()
                .orElseThrow(() -> notSo(
                        "That can't be asked in this way.",
                        fitting.stream().map(Route::method).collect(Collectors.joining(", "))));
        var person = key(request).flatMap(people::person);
        refuse(request, route, person, host);
        var matcher = route.path().matcher(path);
        return new LetIn(route, person.orElse(null), request, parts(matcher));
    }

    private static List<String> parts(Matcher matcher) {
        return matcher.matches()
                ? IntStream.rangeClosed(1, matcher.groupCount())
                        .mapToObj(matcher::group)
                        .toList()
                : List.of();
    }

    private void refuse(Request request, Route route, Optional<Person> person, String host) {
        refuseHaste(person, request);
        boolean reads = reads(request);
        if (!reads && !fromOurPage(request, host)) {
            throw new TurnedAway(403, "That came from a page that isn't of this bench.");
        }
        if (route.needed() == null) {
            return;
        }
        var who = person.orElseThrow(() -> new TurnedAway(401, "This browser isn't paired with the bench."));
        if (!roleFrom(request, who).may(route.needed())) {
            throw new TurnedAway(
                    403,
                    route.needed() == Role.HOST
                            ? "Only at the computer on which the bench runs."
                            : "This link is for looking on.");
        }
        var token =
                Optional.ofNullable(request.getHeaders().get("X-Bench-Token")).orElse("");
        if (!reads && !Secrets.same(token, who.token())) {
            throw new TurnedAway(403, "This page is an old one. Load it anew.");
        }
    }

    /** Who may do all may do so at this computer alone, whoever has got hold of their key. */
    private static Role roleFrom(Request request, Person who) {
        boolean elsewhere = !Addresses.isHere(Request.getRemoteAddr(request));
        return who.role() == Role.HOST && elsewhere ? Role.COUNT : who.role();
    }

    private void refuseHaste(Optional<Person> person, Request request) {
        if (!asks.take(person.map(Person::id).orElseGet(() -> Request.getRemoteAddr(request)))) {
            throw new TurnedAway(Answer.refusal(429, "That is too much at once. Wait a second.")
                    .with("Retry-After", "1"));
        }
    }

    private static boolean fromOurPage(Request request, String host) {
        var origin = request.getHeaders().get(HttpHeader.ORIGIN);
        var site = request.getHeaders().get("Sec-Fetch-Site");
        return (origin == null || origin.equals("http://" + host)) && (site == null || site.equals("same-origin"));
    }

    private Optional<String> key(Request request) {
        return Request.getCookies(request).stream()
                .filter(c -> c.getName().equals(cookie))
                .map(c -> c.getValue())
                .findFirst();
    }

    private static Answer answer(LetIn in, byte[] body) {
        var remote = Request.getRemoteAddr(in.request());
        return in.route().answer().apply(new Ask(in.person(), Addresses.isHere(remote), remote, in.parts(), body));
    }
}
