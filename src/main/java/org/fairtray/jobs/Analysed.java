package org.fairtray.jobs;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.files.PhotoFolder;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;
import org.fairtray.photos.NoPhotoException;
import org.fairtray.photos.SmallPhoto;
import org.fairtray.report.Picture;
import org.fairtray.report.Report;
import org.fairtray.report.ResultsJson;
import org.fairtray.trial.ShownPhoto;

/**
 * An analysed trial, both of its files ready before the first is written.
 *
 * @param findings what was found
 * @param json results.json
 * @param html report.html
 */
public record Analysed(Findings findings, String json, String html) {

    /**
     * Analyses what a trial's folder holds.
     *
     * @param photos the folder's photos, of which the files say which are shown
     */
    public static Analysed of(TrialFiles files, PhotoFolder photos, String label, AnalysisOptions options) {
        return of(files, photo -> picture(photo, photos), label, options);
    }

    /**
     * Analyses what a trial's files say.
     *
     * @param pictures the photos that are shown
     */
    public static Analysed of(
            TrialFiles files, Function<ShownPhoto, Picture> pictures, String label, AnalysisOptions options) {
        var findings = findings(files, options);
        var html = Report.of(files.trial(), Needed.layout(files), findings)
                .labelled(label)
                .showing(files.photos().stream().map(pictures).toList())
                .html();
        return new Analysed(findings, ResultsJson.of(findings), html);
    }

    /** A photo that is gone or spoiled doesn't hold the analysis up. */
    private static Picture picture(ShownPhoto photo, PhotoFolder photos) {
        try {
            return photos.read(photo.file())
                    .map(bytes -> Picture.of(photo, SmallPhoto.jpeg(bytes)))
                    .orElseGet(() -> Picture.missing(photo, "there is no photos/" + photo.file() + " any more"));
        } catch (NoPhotoException e) {
            return Picture.missing(photo, e.getMessage());
        }
    }

    /** What the analysis of a trial's folder finds, nothing written. */
    public static Findings findings(TrialFiles files, AnalysisOptions options) {
        var layout = Needed.layout(files);
        if (files.readings().isEmpty()) {
            throw Needed.missing("readings.csv", "readings; one line per tray, day and counting frame");
        }
        return Analysis.of(files.trial(), layout, files.readings(), Needed.sealing(files), Version.text(), options);
    }

    /** Writes results.json and report.html, each whole or not at all. */
    public Findings write(TrialFolder folder) {
        folder.write("results.json", json.getBytes(StandardCharsets.UTF_8));
        folder.write("report.html", html.getBytes(StandardCharsets.UTF_8));
        return findings;
    }

    /** The verdicts and what is to be minded, line by line. */
    public static List<String> forPeople(Findings findings) {
        var lines = new ArrayList<String>();
        lines.add(findings.trial());
        for (var outcome : findings.outcomes()) {
            lines.add("");
            lines.add(outcome.name() + " on day " + outcome.day() + ", " + outcome.trays() + " trays"
                    + (outcome.design() == null ? "" : ", " + outcome.design().name()));
            outcome.verdicts().forEach(v -> lines.add("  " + v.verdict() + ": " + v.sentence()));
            outcome.interactions().forEach(i -> lines.add("  " + i.sentence()));
        }
        if (!findings.warnings().isEmpty()) {
            lines.add("");
            findings.warnings().forEach(w -> lines.add("Mind (" + w.kind() + "): " + w.sentence()));
        }
        return lines;
    }
}
