package org.fairtray.bench;

import java.io.Closeable;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;
import org.fairtray.jobs.Laid;
import org.fairtray.jobs.Needed;
import org.fairtray.jobs.Planned;
import org.fairtray.journal.JournalFile;
import org.fairtray.journal.NotKeptException;
import org.fairtray.sharing.PackOptions;
import org.fairtray.sharing.Packing;
import org.fairtray.sheets.Printing;
import org.fairtray.sheets.Sheets;
import org.fairtray.sheets.paper.Paper;

/**
 * One trial's folder on the desk: planned, laid out, printed, counted, analysed. Files that change under it are read anew.
 */
public final class TrialDesk implements Closeable {
    private final TrialFolder folder;
    private final Clock clock;
    private Optional<Opened> opened = Optional.empty();

    TrialDesk(Path folder, Clock clock) {
        this.folder = new TrialFolder(folder);
        this.clock = clock;
    }

    /** What was read, from which files, and the bench on it where it is laid out. */
    private record Opened(String fingerprint, TrialFiles files, Optional<TrialBench> bench) {}

    /** Its folder. */
    public TrialFolder folder() {
        return folder;
    }

    /** Why nothing can be kept in its folder; empty where it can. */
    public Optional<String> readOnly() {
        return JournalFile.mayWrite(folder.path()) ? Optional.empty() : Optional.of(JournalFile.READ_ONLY);
    }

    /**
     * What the folder holds beside the readings.
     *
     * @throws ProblemsException if any of it is broken
     */
    public synchronized TrialFiles files() {
        return open().files();
    }

    /**
     * The bench on which this trial is counted.
     *
     * @throws Refused if it isn't laid out yet
     * @throws ProblemsException if its files are broken
     */
    public synchronized TrialBench bench() {
        return open().bench().orElseThrow(() -> new Refused("This trial isn't laid out yet."));
    }

    private Opened open() {
        var fingerprint = fingerprint();
        if (opened.filter(o -> o.fingerprint().equals(fingerprint) && !writableAgain(o))
                .isEmpty()) {
            close();
            var files = folder.readWithoutReadings();
            var bench = files.layout().map(layout -> TrialBench.open(folder, files, layout, clock));
            opened = Optional.of(new Opened(fingerprint, files, bench));
        }
        return opened.orElseThrow();
    }

    private boolean writableAgain(Opened o) {
        return o.bench().filter(TrialBench::readOnly).isPresent() && JournalFile.mayWrite(folder.path());
    }

    /** Enough to see that plan or layout are other files than they were, without reading them. */
    private String fingerprint() {
        var print = new StringBuilder();
        for (var name : List.of("plan.yaml", "layout.csv", "seal.json", "frames.csv", "rotation.csv")) {
            var file = folder.path().resolve(name);
            try {
                print.append(name)
                        .append(Files.getLastModifiedTime(file))
                        .append(' ')
                        .append(Files.size(file))
                        .append('\n');
            } catch (IOException e) {
                print.append("no ").append(name).append('\n');
            }
        }
        return print.toString();
    }

    /** How far it is; never fails. */
    public synchronized Stage stage() {
        try {
            var bench = open().bench();
            if (bench.isEmpty()) {
                return Stage.PLANNED;
            }
            if (bench.get().opened()) {
                return Stage.OPENED;
            }
            return bench.get().counted() ? Stage.COUNTING : Stage.LAID;
        } catch (ProblemsException | NotKeptException e) {
            return Stage.BROKEN;
        }
    }

    /** What is wrong with its files; nothing where they can be read. */
    public synchronized List<Problem> problems() {
        try {
            open();
            return List.of();
        } catch (ProblemsException e) {
            return e.problems();
        }
    }

    /** The plan's text. */
    public TrialFolder.PlanNow plan() {
        return folder.planText();
    }

    /**
     * Writes the plan, and says what it now is.
     *
     * @param replaces SHA-256 of the plan that the writer had in view
     * @throws Refused if the plan is another by now, or something has been counted
     * @throws ProblemsException if the text can't be read as a plan
     */
    public synchronized TrialFolder.PlanNow savePlan(String text, String replaces) {
        refuseCounted("The plan can't be changed any more");
        if (!plan().sha256().equals(replaces)) {
            throw new Refused(
                    "plan.yaml was changed elsewhere since you opened it. Load it anew, then change it again.");
        }
        TrialFolder.readPlan(text);
        folder.writePlan(text, true);
        return plan();
    }

    private void refuseCounted(String what) {
        var stage = stage();
        if (stage == Stage.COUNTING || stage == Stage.OPENED) {
            throw new Refused(what + ": counting has begun. Begin another trial for another plan.");
        }
        if (folder.hasReadings() && stage != Stage.LAID) {
            throw new Refused(what + ": there is a readings.csv in the folder already.");
        }
    }

    /**
     * Draws a layout. One that is there is drawn anew only while nothing has been counted.
     *
     * @throws Refused if something has been counted
     */
    public synchronized Laid lay(Optional<Long> seed) {
        refuseCounted("The layout can't be drawn again");
        var plan = folder.readPlan();
        close();
        return Laid.of(folder, plan, seed.orElseGet(Laid::anySeed), Optional.empty(), true, share -> {});
    }

    /** Prints the sheets; labels lead to an address, where there is one. */
    public synchronized List<String> print(Paper paper, Optional<String> address) {
        var files = files();
        var sheets = new Sheets(files.trial(), Needed.layout(files), files.handling(), new Printing(paper, address));
        var written = sheets.files();
        folder.writeSheets(written, true);
        return List.copyOf(written.keySet());
    }

    /**
     * Analyses what stands, and writes results.json and report.html.
     *
     * @throws Refused if the seal is shut, or people differ about a figure
     */
    public Findings analyse() {
        var analysed = Analysed.of(ready(), new PhotoFolder(folder.path()), "", AnalysisOptions.USUAL);
        return analysed.write(folder);
    }

    /** The follow-up that would settle what stays open; nothing is written. */
    public Planned next() {
        return Planned.after(ready());
    }

    /**
     * What the trial would be as one file to share, everything personal left out; nothing is written.
     *
     * @throws Refused if the seal is shut, or people differ about a figure
     */
    public Packing packing() {
        ready();
        return Packing.of(folder, new PhotoFolder(folder.path()), PackOptions.USUAL);
    }

    private synchronized TrialFiles ready() {
        var bench = bench();
        if (!bench.opened()) {
            throw new Refused("The seal is still shut. Open it when the last tray is counted.");
        }
        bench.writeReadings();
        var differing = bench.conflicts();
        if (!differing.isEmpty()) {
            throw new Refused(differing.size() + " figures differ between two people. Settle them first.");
        }
        var problem = bench.counts(Long.MAX_VALUE).problem();
        if (problem != null) {
            throw new Refused("readings.csv isn't up to date: " + problem);
        }
        return folder.read();
    }

    /** Takes in what was changed in readings.csv, and writes it where counts came; does nothing before it is laid out. */
    void writeReadings() {
        Optional<TrialBench> bench;
        synchronized (this) {
            bench = opened.flatMap(Opened::bench);
        }
        bench.ifPresent(TrialBench::writeReadings);
    }

    @Override
    public synchronized void close() {
        opened.flatMap(Opened::bench).ifPresent(TrialBench::close);
        opened = Optional.empty();
    }
}
