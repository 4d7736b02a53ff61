package org.fairtray.bench.web;

import java.util.function.Function;
import java.util.regex.Pattern;

/**
 * Something that can be asked.
 *
 * @param needed what one must be allowed to do; null where one needn't be in
 * @param largest bytes of what is sent along
 */
record Route(String method, Pattern path, Role needed, int largest, Function<Ask, Answer> answer) {
    private static final int USUAL = 1 << 19;

    /** @param path in which {@code *} stands for anything but a slash */
    static Route of(String method, String path, Role needed, Function<Ask, Answer> answer) {
        var pattern = Pattern.compile(Pattern.quote(path).replace("*", "\\E([^/]+)\\Q"));
        return new Route(method, pattern, needed, USUAL, answer);
    }

    Route upTo(int bytes) {
        return new Route(method, path, needed, bytes, answer);
    }
}
