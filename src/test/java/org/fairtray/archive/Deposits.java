package org.fairtray.archive;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.fairtray.files.Sha256;

/** Invented trials to be kept. */
final class Deposits {
    private Deposits() {}

    /** One of many that differ in their number. */
    static Deposit numbered(int number) {
        return titled("Trial " + number, "cress", number);
    }

    static Deposit titled(String title, String crop, int number) {
        return of(
                title,
                crop,
                number,
                List.of(
                        new Varied("soak", Optional.of("h"), List.of("0", "4", "8")),
                        new Varied("mat", Optional.empty(), List.of("hemp", "jute"))),
                List.of(new Condition("water", "rain")));
    }

    static Deposit of(String title, String crop, int number, List<Varied> factors, List<Condition> conditions) {
        var trial = new SharedTrial(
                id(number),
                Sha256.of(("layout " + number).getBytes(StandardCharsets.UTF_8)),
                title,
                crop,
                "Does it matter?",
                24,
                "germinated",
                number % 2 == 0,
                "0.1.0",
                Sha256.of(("plan " + number % 3).getBytes(StandardCharsets.UTF_8)),
                number % 2 == 0 ? Optional.of("farm-" + number) : Optional.empty(),
                factors,
                conditions);
        return new Deposit(trial, 1, contribution(number), pack(number));
    }

    static String id(int number) {
        return Sha256.of(Integer.toString(number).getBytes(StandardCharsets.UTF_8));
    }

    static String contribution(int number) {
        return "{\"number\": " + number + "}";
    }

    static byte[] pack(int number) {
        return ("the pack of trial " + number).getBytes(StandardCharsets.UTF_8);
    }

    /** The same trial with another content to pool. */
    static Deposit with(Deposit deposit, String contribution, byte[] pack) {
        return new Deposit(deposit.trial(), deposit.contributionVersion(), contribution, pack);
    }
}
