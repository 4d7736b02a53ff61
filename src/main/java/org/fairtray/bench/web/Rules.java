package org.fairtray.bench.web;

import java.nio.ByteBuffer;
import java.util.Map;
import org.eclipse.jetty.http.HttpField;
import org.eclipse.jetty.http.HttpHeader;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.util.Callback;

/** How answers leave: with the rules for browsers that every one of them has, those of Jetty itself too. */
final class Rules {
    private static final String OF_PAGES = "default-src 'none'; script-src 'self'; style-src 'self';"
            + " img-src 'self' blob:; connect-src 'self'; frame-src 'self'; worker-src 'self'; manifest-src 'self';"
            + " form-action 'self'; base-uri 'none'; frame-ancestors 'self'";
    private static final Map<String, String> HEADERS = Map.of(
            "X-Content-Type-Options", "nosniff",
            "X-Frame-Options", "SAMEORIGIN",
            "Referrer-Policy", "no-referrer",
            "Cross-Origin-Resource-Policy", "same-origin",
            "Content-Security-Policy", OF_PAGES,
            "Cache-Control", "no-store",
            "Permissions-Policy", "geolocation=(), microphone=(), camera=(self)");
    /** Browsers heed it only at this computer's own address, and complain elsewhere. */
    private static final HttpField APART = new HttpField("Cross-Origin-Opener-Policy", "same-origin");

    private Rules() {}

    static void send(Answer answer, Response response, Callback callback) {
        response.setStatus(answer.status());
        var headers = response.getHeaders();
        HEADERS.forEach(headers::put);
        if (Addresses.isHere(Request.getRemoteAddr(response.getRequest()))) {
            headers.put(APART);
        }
        headers.put(HttpHeader.CONTENT_TYPE, answer.type());
        answer.headers().forEach((name, value) -> headers.put(new HttpField(name, value)));
        response.write(true, ByteBuffer.wrap(answer.body()), callback);
    }

    /** What Jetty refuses by itself, because it makes no sense as an ask. */
    static boolean refuse(Request request, Response response, Callback callback) {
        int status = response.getStatus() < 400 ? 500 : response.getStatus();
        var reason = status == 500
                ? "That is a fault of the program, not yours. What was kept before is safe."
                : "The bench couldn't make sense of what was asked.";
        send(Answer.refusal(status, reason), response, callback);
        return true;
    }
}
