package org.fairtray.bench.web;

import com.google.gson.Gson;
import com.google.gson.JsonParseException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;
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

    private final Path folder;
    private final Clock clock;
    private final Consumer<String> onCode;
    private final List<Person> in = new ArrayList<>();
    private String code;

    /** @param onCode is told each new code */
    People(Path folder, Clock clock, Consumer<String> onCode) {
        this.folder = folder;
        this.clock = clock;
        this.onCode = onCode;
        in.addAll(kept());
        newCode();
    }

    private List<Person> kept() {
        try {
            var text = Files.readString(folder.resolve(FILE), StandardCharsets.UTF_8);
            var people = new Gson().fromJson(text, Person[].class);
            return people == null ? List.of() : List.of(people);
        } catch (IOException | JsonParseException e) {
            return List.of();
        }
    }

    private void newCode() {
        code = Secrets.code();
        onCode.accept(code);
    }

    /** The code of the moment. */
    synchronized String code() {
        return code;
    }

    /**
     * Lets someone in.
     *
     * @param given the code of the moment, or a link's key
     * @param here whether they sit at the bench's own computer
     * @return the key for their cookie; empty where the code is none
     * @throws Refused if the name is none
     */
    synchronized Optional<String> enter(String given, String name, boolean here) {
        var typed = given.strip().toUpperCase(Locale.ROOT).replace("-", "").replace(" ", "");
        if (Secrets.same(typed, code.replace("-", ""))) {
            var key = Secrets.key();
            in.add(made(checked(name), here ? Role.HOST : Role.COUNT, key));
            newCode();
            keepIfThatCanBe();
            return Optional.of(key);
        }
        return person(given).filter(p -> p.role() == Role.LOOK).map(p -> given);
    }

    private static String checked(String name) {
        var stripped = name == null ? "" : name.strip();
        if (stripped.isEmpty() || stripped.length() > LONGEST_NAME || !stripped.matches("[^\\p{Cntrl}]+")) {
            throw new Refused("Say who you are, in " + LONGEST_NAME + " letters at most.");
        }
        return stripped;
    }

    /** Makes a key for a link with which one may look on. */
    synchronized String link(String name) {
        var key = Secrets.key();
        in.add(made(checked(name), Role.LOOK, key));
        keep();
        return key;
    }

    private Person made(String name, Role role, String key) {
        return new Person(
                Secrets.key().substring(0, 10),
                name,
                role,
                Secrets.sha256(key),
                Secrets.key(),
                clock.instant().truncatedTo(ChronoUnit.SECONDS).toString());
    }

    private void keepIfThatCanBe() {
        try {
            keep();
        } catch (ProblemsException e) {
            // Where the folder can't be written to, one may look at it all the same, until the bench is stopped.
            return;
        }
    }

    private void keep() {
        new TrialFolder(folder).write(FILE, new Gson().toJson(in).getBytes(StandardCharsets.UTF_8));
    }

    /** Who has a key. */
    synchronized Optional<Person> person(String key) {
        var hash = Secrets.sha256(key);
        return in.stream().filter(p -> Secrets.same(p.keySha256(), hash)).findFirst();
    }

    /** Everyone who is in. */
    synchronized List<Person> all() {
        return List.copyOf(in);
    }

    /** Shows someone out. */
    synchronized boolean remove(String id) {
        boolean gone = in.removeIf(p -> p.id().equals(id));
        keep();
        return gone;
    }
}
