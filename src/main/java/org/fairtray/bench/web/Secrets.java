package org.fairtray.bench.web;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Base64;
import org.fairtray.files.Sha256;

/** Keys and codes that nobody can guess. */
final class Secrets {
    /** Without letters and digits that are easily taken for one another. */
    private static final String LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";

    private static final int CODE = 8;
    private static final SecureRandom RANDOM = new SecureRandom();

    private Secrets() {}

    /** A key for a cookie or a link: 256 bits. */
    static String key() {
        byte[] bytes = new byte[32];
        RANDOM.nextBytes(bytes);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** A code to type, such as ABCD-2345: 39 bits, for as few tries as {@link Tries} allows. */
    static String code() {
        var code = new StringBuilder();
        for (int i = 0; i < CODE; i++) {
            code.append(i == CODE / 2 ? "-" : "").append(LETTERS.charAt(RANDOM.nextInt(LETTERS.length())));
        }
        return code.toString();
    }

    static String sha256(String text) {
        return Sha256.of(text.getBytes(StandardCharsets.UTF_8));
    }

    /** Whether two texts are the same, in a time that doesn't tell how far they are. */
    static boolean same(String one, String other) {
        return MessageDigest.isEqual(one.getBytes(StandardCharsets.UTF_8), other.getBytes(StandardCharsets.UTF_8));
    }
}
