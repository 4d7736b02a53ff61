package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.JsonParseException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.fairtray.bench.Refused;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFolder;

/**
 * Who is in. One comes in by the code of the moment, which is used up by it, or by a link for looking on. Those who are in
 * stay so when the bench is started anew: their keys' hashes are kept in a file beside the trials.
 */
final class People {
    private static final String FILE = "bench-people.json";
    private static final int LONGEST_NAME = 40;

    /** Letters that show as nothing, or that turn the direction of what is written after them. */
    private static final Pattern UNSEEN = Pattern.compile("[\\p{Cc}\\p{Zl}\\p{Zp}\\u202a-\\u202e\\u2066-\\u2069]");

    private final Path folder;
    private final Clock clock;
    private final Consumer<String> onCode;
    private List<Person> in;
    private String code = Secrets.code();
    private String ownCode = Secrets.code();

    /** @param onCode is told each code that takes the place of a used one */
    People(Path folder, Clock clock, Consumer<String> onCode) {
        this.folder = folder;
        this.clock = clock;
        this.onCode = onCode;
        this.in = kept();
    }

    private List<Person> kept() {
        try {
            var text = Files.readString(folder.resolve(FILE), StandardCharsets.UTF_8);
            var people = Optional.ofNullable(new Gson().fromJson(text, Person[].class));
            return Stream.of(people.orElse(new Person[0]))
                    .filter(p -> p != null && p.isWhole())
                    .toList();
        } catch (IOException | JsonParseException e) {
            return List.of();
        }
    }

    /** The code of the moment. */
    synchronized String code() {
        return code;
    }

    /** A code for the browser that the bench itself opens: good once, at the bench's own computer. */
    synchronized String ownCode() {
        return ownCode;
    }

    /**
     * Lets someone in.
     *
     * @param given the code of the moment, or a link's key
     * @param here whether they sit at the bench's own computer
     * @param before who this browser was till now
     * @return the key for their cookie; empty where the code is none
     * @throws Refused if the name is none
     */
    synchronized Optional<String> enter(String given, String name, boolean here, Optional<Person> before) {
        var typed = given.strip().toUpperCase(Locale.ROOT).replace("-", "").replace(" ", "");
        if (here && Secrets.same(typed, ownCode.replace("-", ""))) {
            var key = letIn(name, Role.HOST, before);
            ownCode = Secrets.code();
            return Optional.of(key);
        }
        if (Secrets.same(typed, code.replace("-", ""))) {
            var key = letIn(name, here ? Role.HOST : Role.COUNT, before);
            code = Secrets.code();
            onCode.accept(code);
            return Optional.of(key);
        }
        return person(given).filter(p -> p.role() == Role.LOOK).map(p -> given);
    }

    /** A browser that was in by a key of its own is in by the new one alone. */
    private String letIn(String name, Role role, Optional<Person> before) {
        var key = Secrets.key();
        var person = made(name, role, key);
        var others = in.stream()
                .filter(p -> p.role() == Role.LOOK
                        || before.filter(b -> b.id().equals(p.id())).isEmpty());
        keepIfThatCanBe(Stream.concat(others, Stream.of(person)).toList());
        return key;
    }

    private static String checked(String name) {
        var stripped = name == null ? "" : name.strip();
        if (stripped.isEmpty()
                || stripped.length() > LONGEST_NAME
                || UNSEEN.matcher(stripped).find()) {
            throw new Refused("Say who you are, in " + LONGEST_NAME + " letters at most.");
        }
        return stripped;
    }

    /** Makes a key for a link with which one may look on. */
    synchronized String link(String name) {
        var key = Secrets.key();
        var person = made(name, Role.LOOK, key);
        keep(Stream.concat(in.stream(), Stream.of(person)).toList());
        return key;
    }

    private Person made(String name, Role role, String key) {
        return new Person(
                Secrets.key().substring(0, 10),
                checked(name),
                role,
                Secrets.sha256(key),
                Secrets.key(),
                clock.instant().truncatedTo(ChronoUnit.SECONDS).toString());
    }

    /** Where the folder can't be written to one may look at it all the same, until the bench is stopped. */
    private void keepIfThatCanBe(List<Person> now) {
        in = now;
        try {
            keep(now);
        } catch (ProblemsException e) {
            return;
        }
    }

    /** Who is in is what is on disk. */
    private void keep(List<Person> now) {
        new TrialFolder(folder).write(FILE, new Gson().toJson(now).getBytes(StandardCharsets.UTF_8));
        in = now;
    }

    /** Who has a key. */
    synchronized Optional<Person> person(String key) {
        var hash = Secrets.sha256(key);
        return in.stream().filter(p -> Secrets.same(p.keySha256(), hash)).findFirst();
    }

    /** Everyone who is in. */
    synchronized List<Person> all() {
        return in;
    }

    /** Shows someone out. */
    synchronized boolean remove(String id) {
        var others = in.stream().filter(p -> !p.id().equals(id)).toList();
        if (others.size() == in.size()) {
            return false;
        }
        keep(others);
        return true;
    }
}
