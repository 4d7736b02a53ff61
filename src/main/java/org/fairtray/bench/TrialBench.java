package org.fairtray.bench;

import java.io.Closeable;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.ReadingCells;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.journal.Edits;
import org.fairtray.journal.Entry;
import org.fairtray.journal.Event;
import org.fairtray.journal.JournalFile;
import org.fairtray.journal.Ledger;
import org.fairtray.journal.NotKeptException;
import org.fairtray.journal.Standing;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.ShownPhoto;
import org.fairtray.trial.Trial;

/**
 * A laid-out trial on the bench. Several counters may use it at once. What {@link #count} answers as kept is on disk;
 * readings.csv follows with {@link #writeReadings}.
 */
public final class TrialBench implements Closeable {
    private final Trial trial;
    private final Layout layout;
    private final Clock clock;
    private final CountSheet sheet;
    private final ReadingCells meaning;
    private final CountRules rules;
    private final ReadingsKeeper keeper;
    private final Ledger ledger;
    private final JournalFile journal;
    private final Photos photos;
    private long written = -1;
    private String problem;

    private TrialBench(TrialFolder folder, TrialFiles files, Layout layout, Clock clock) {
        this.trial = files.trial();
        this.layout = layout;
        this.clock = clock;
        this.sheet = CountSheet.of(trial, layout, files.handling());
        this.meaning = new ReadingCells(trial);
        this.rules = new CountRules(trial, layout, clock);
        this.keeper = new ReadingsKeeper(folder.path(), trial, layout);
        this.photos = new Photos(new PhotoFolder(folder.path()), rules.trays());
        this.ledger = new Ledger();
        this.journal = JournalFile.open(folder.path(), clock, ledger::add);
    }

    /**
     * Opens the journal of a trial, and takes in the readings that are there already.
     *
     * @param files what its folder holds
     * @throws ProblemsException if the journal is damaged, of another layout or in use
     */
    static TrialBench open(TrialFolder folder, TrialFiles files, Layout layout, Clock clock) {
        var bench = new TrialBench(folder, files, layout, clock);
        var sha256 = files.layoutSha256().orElseThrow();
        try {
            if (bench.ledger.layoutSha256().isEmpty()) {
                bench.begin(sha256);
            } else if (!bench.ledger.layoutSha256().equals(sha256)) {
                throw new ProblemsException(new Problem(
                        TrialFolder.JOURNAL,
                        0,
                        "counts of another layout",
                        "counts of layout.csv as it is; put that layout back, or move the journal elsewhere",
                        Optional.empty()));
            }
            bench.writeReadings();
        } catch (ProblemsException | NotKeptException e) {
            bench.letGo();
            throw e;
        }
        return bench;
    }

    private void begin(String sha256) {
        if (!readOnly()) {
            keep(List.of(new Event.Began(sha256)));
        }
    }

    /** Whether nothing can be kept, because its folder can't be written to. */
    public boolean readOnly() {
        return journal.readOnly();
    }

    /** The plan. */
    public Trial trial() {
        return trial;
    }

    /** Which tray stands where and gets what. Pages get none of it before the seal is open. */
    public Layout layout() {
        return layout;
    }

    /** What a counter needs to know. */
    public CountSheet sheet() {
        return sheet;
    }

    /**
     * Keeps counts, in their order, each by itself.
     *
     * @param by who counted
     * @return what became of each, in the same order
     * @throws NotKeptException if the disk takes no more; those before it are kept
     */
    public synchronized List<Result> count(List<Offer> offers, String by) {
        return offers.stream().map(o -> count(o, by)).toList();
    }

    private Result count(Offer offer, String by) {
        var senseless = rules.senseless(offer, journal.last());
        if (senseless.isPresent()) {
            return new Result(offer.id(), "refused", senseless.get(), null);
        }
        var counted = rules.counted(offer, by);
        if (ledger.knows(offer.id())) {
            return new Result(offer.id(), "known", null, cell(counted));
        }
        var impossible = rules.impossible(counted, ledger);
        if (impossible.isPresent()) {
            return new Result(offer.id(), "refused", impossible.get(), cell(counted));
        }
        var differing = ledger.merge(counted).differing().keySet();
        keep(List.of(counted));
        return differing.isEmpty()
                ? new Result(offer.id(), "kept", null, cell(counted))
                : new Result(
                        offer.id(),
                        "conflict",
                        "Someone else counted another figure: " + String.join(", ", differing) + ".",
                        cell(counted));
    }

    private CellNow cell(Event.Counted counted) {
        return CellNow.of(ledger.standing(counted.slot()), meaning);
    }

    private List<Entry> keep(List<Event> events) {
        return added(journal.append(events));
    }

    /** Shows what is in readings.csv where none of it can be kept in the journal. */
    private void show(List<Event.Counted> edits) {
        var entries = new ArrayList<Entry>();
        edits.forEach(edit -> entries.add(new Entry(journal.last() + 1 + entries.size(), clock.instant(), edit)));
        added(entries);
    }

    private List<Entry> added(List<Entry> entries) {
        entries.forEach(ledger::add);
        return entries;
    }

    /** Says when the trays were sown. */
    public synchronized void sown(LocalDate date, String by) {
        keep(List.of(new Event.Sown(date, by)));
    }

    /** Opens the seal, once. */
    public synchronized void open(String by) {
        if (ledger.opened().isEmpty()) {
            keep(List.of(new Event.Opened(by)));
        }
    }

    /**
     * Keeps a photo.
     *
     * @param id made by the page; the same id twice is kept once
     * @return the name of its file
     * @throws Refused if it is none, or of no tray of this trial
     */
    public synchronized String photograph(String id, String tray, int day, byte[] bytes, String by) {
        var name = Photos.name(id, tray, day, bytes);
        if (sheet.trays().stream().noneMatch(t -> t.tray().equals(tray))
                || !sheet.days().contains(day)) {
            throw new Refused("There is no tray '" + tray + "' to be counted on day " + day + ".");
        }
        if (readOnly()) {
            throw new NotKeptException(JournalFile.READ_ONLY, null);
        }
        if (!ledger.knows(id)) {
            photos.write(name, bytes);
            keep(List.of(new Event.Photographed(id, name, tray, day, by)));
        }
        return name;
    }

    /** A photo's bytes, by the name of its file; empty where it is gone, or was never taken here. */
    public synchronized Optional<byte[]> photo(String file) {
        return taken(file).flatMap(photos::read);
    }

    private Optional<Photo> taken(String file) {
        return ledger.photos().stream()
                .filter(p -> p.file().equals(file))
                .findFirst()
                .map(Photo::of);
    }

    /**
     * The photos that stand in the report.
     *
     * @throws ProblemsException if photos.csv is broken
     */
    public synchronized List<ShownPhoto> shownPhotos() {
        return photos.shown();
    }

    /**
     * Shows a photo in the report, or shows it no more.
     *
     * @param words what there is to see; may be empty
     * @throws Refused if it was never taken here, or the words are too many
     * @throws ProblemsException if photos.csv is broken or can't be written
     */
    public synchronized void show(String file, boolean shown, String words) {
        var photo = taken(file).orElseThrow(() -> new Refused("There is no photo '" + file + "'."));
        if (shown) {
            photos.show(photo, words);
        } else {
            photos.hide(photo);
        }
    }

    /** Whether anything was ever counted. */
    public synchronized boolean counted() {
        return ledger.newest().isPresent();
    }

    /** Whether someone opened the seal. */
    public synchronized boolean opened() {
        return ledger.opened().isPresent();
    }

    /**
     * What stands, or changed.
     *
     * @param since the number of an entry; 0 for all
     */
    public synchronized Counts counts(long since) {
        var cells = ledger.standings().stream()
                .filter(s -> s.sequence() > since)
                .map(s -> CellNow.of(s, meaning))
                .toList();
        return new Counts(
                cells,
                conflicts(),
                ledger.photos().stream().map(Photo::of).toList(),
                journal.last(),
                ledger.sown().map(s -> s.date().toString()).orElse(null),
                today(),
                opened(),
                ledger.opened().map(e -> e.time().toString()).orElse(null),
                ledger.countedAfterOpening(),
                problem);
    }

    /** Where people differ and nobody has settled it. */
    public synchronized List<Differing> conflicts() {
        return ledger.conflicts().stream().map(c -> Differing.of(c, ledger)).toList();
    }

    /** The number of the newest entry. */
    public long last() {
        return journal.last();
    }

    /** Which day of counting it is. */
    public synchronized Today today() {
        return Today.of(trial.counting().days(), ledger.sown().map(Event.Sown::date), clock, ledger.newest());
    }

    /** How many trays are still to be counted today; null where today is no day of counting. */
    public synchronized Integer toDo() {
        var day = today().day();
        return day == null
                ? null
                : sheet.toDo(
                        day,
                        ledger.standings().stream()
                                .filter(s -> s.slot().day() == day)
                                .map(s -> CellNow.of(s, meaning))
                                .toList());
    }

    /** The readings that stand. */
    public synchronized List<Reading> readings() {
        return keeper.readings(ledger.standings());
    }

    /**
     * Takes in what someone else changed in readings.csv, then writes it anew where counts came since. What can't be done
     * is said by {@link Counts#problem} and tried again the next time.
     */
    public void writeReadings() {
        synchronized (keeper) {
            try {
                takeEdits();
                if (readOnly()) {
                    say(JournalFile.READ_ONLY);
                } else {
                    writeStanding();
                }
            } catch (ProblemsException | NotKeptException e) {
                say(e.getMessage());
            } catch (RuntimeException e) {
                // Whatever it is, the journal has the counts, and the next second tries again.
                say("readings.csv couldn't be written by a fault of the program: " + e + ". The counts are kept.");
            }
        }
    }

    private void takeEdits() {
        var changed = keeper.changed();
        if (changed.isEmpty()) {
            return;
        }
        synchronized (this) {
            var id = "file " + changed.get().sha256().substring(0, 12) + " " + journal.last();
            var seeds = FrameSeeds.of(ledger.standings());
            var cells = seeds.without(
                    changed.get().cells(), ledger, trial.counting().seedsPerFrame());
            var edits = Edits.of(ledger, cells, id);
            int before = ledger.conflicts().size();
            if (readOnly()) {
                show(edits);
            } else if (!edits.isEmpty()) {
                keep(List.copyOf(edits));
            }
            written = -1;
            keeper.taken(changed.get());
            if (!readOnly() && ledger.conflicts().size() > before) {
                keeper.keepAside();
            }
        }
    }

    private void writeStanding() {
        List<Standing> standings;
        long upTo;
        synchronized (this) {
            upTo = journal.last();
            standings = new ArrayList<>(ledger.standings());
        }
        if (upTo != written && keeper.write(standings)) {
            written = upTo;
        }
        say(null);
    }

    private synchronized void say(String sentence) {
        problem = sentence;
    }

    /** Writes readings.csv a last time and lets the journal go. */
    @Override
    public void close() {
        writeReadings();
        letGo();
    }

    private void letGo() {
        try {
            journal.close();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
