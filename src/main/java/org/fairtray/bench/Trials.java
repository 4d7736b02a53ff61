package org.fairtray.bench;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Timer;
import java.util.TimerTask;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFolder;

/**
 * The trials that a bench serves: one, or all in the folders of a folder. A trial is known by the name of its folder, and
 * nothing that a page sends is ever taken for a path. While the bench is open, each second readings.csv follows.
 */
public final class Trials implements Closeable {
    private static final long SECOND = 1000;
    private static final Pattern NAME = Pattern.compile("[a-z0-9][a-z0-9-]{0,59}");

    private final Path folder;
    private final Clock clock;
    private final boolean several;
    private final Map<String, TrialDesk> desks = new TreeMap<>();
    private final Timer keeper = new Timer("readings", true);

    /**
     * @param folder of a trial, or of folders of trials
     * @throws ProblemsException if there is no such folder
     */
    public Trials(Path folder, Clock clock) {
        this.folder = folder.toAbsolutePath().normalize();
        this.clock = clock;
        new TrialFolder(folder).requireFolder();
        this.several = !Files.exists(folder.resolve("plan.yaml"));
        all();
        keeper.schedule(
                new TimerTask() {
                    @Override
                    public void run() {
                        writeReadings();
                    }
                },
                SECOND,
                SECOND);
    }

    /** Whether new trials can be begun here. */
    public boolean several() {
        return several;
    }

    /** Every trial, by the name of its folder. */
    public synchronized Map<String, TrialDesk> all() {
        var found = several ? folders() : List.of(folder);
        found.forEach(f -> desks.computeIfAbsent(f.getFileName().toString(), n -> new TrialDesk(f, clock)));
        return new TreeMap<>(desks);
    }

    private List<Path> folders() {
        try (var inside = Files.list(folder)) {
            return inside.filter(f -> Files.exists(f.resolve("plan.yaml"))).toList();
        } catch (IOException e) {
            return List.of();
        }
    }

    /** A trial by the name of its folder. */
    public Optional<TrialDesk> find(String name) {
        TrialDesk known;
        synchronized (this) {
            known = desks.get(name);
        }
        return Optional.ofNullable(known == null ? all().get(name) : known);
    }

    /**
     * Begins a trial in a folder of its own.
     *
     * @param name of the folder: small letters, digits and hyphens
     * @throws Refused if the name is none, or taken
     * @throws ProblemsException if the plan can't be read or written
     */
    public synchronized void begin(String name, String plan) {
        if (!several) {
            throw new Refused("This bench serves one trial. Start it on a folder of trials to begin others.");
        }
        if (name == null || !NAME.matcher(name).matches()) {
            throw new Refused(
                    "A trial's name has small letters, digits and hyphens, 60 at most, and begins with a letter"
                            + " or digit.");
        }
        if (Files.exists(folder.resolve(name))) {
            throw new Refused("There is a folder '" + name + "' already. Choose another name.");
        }
        TrialFolder.readPlan(plan);
        new TrialFolder(folder.resolve(name)).writePlan(plan, false);
        all();
    }

    private void writeReadings() {
        List<TrialDesk> now;
        synchronized (this) {
            now = new ArrayList<>(desks.values());
        }
        now.forEach(TrialDesk::writeReadings);
    }

    /** Writes every readings.csv a last time. */
    @Override
    public synchronized void close() {
        keeper.cancel();
        desks.values().forEach(TrialDesk::close);
    }
}
