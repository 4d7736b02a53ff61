package org.fairtray.bench.web;

import java.util.Objects;
import java.util.stream.Stream;

/**
 * Someone who is in, by one browser.
 *
 * @param id to speak of them
 * @param keySha256 SHA-256 of the key in their cookie, or of their link; the key itself is nowhere but with them
 * @param token that each change must bring along, so that no other page can make their browser do it
 * @param since when they came in, ISO 8601
 */
record Person(String id, String name, Role role, String keySha256, String token, String since) {
    /** Whether nothing of it is missing, as in a file that someone changed by hand. */
    boolean isWhole() {
        return Stream.of(id, name, role, keySha256, token, since).allMatch(Objects::nonNull);
    }
}
