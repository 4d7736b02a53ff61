package org.fairtray.command;

import java.nio.charset.StandardCharsets;
import org.fairtray.analysis.Analysis;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.findings.Findings;
import org.fairtray.report.Report;
import org.fairtray.report.ResultsJson;

/**
 * An analysed trial, both of its files ready before the first is written.
 *
 * @param findings what was found
 * @param json results.json
 * @param html report.html
 */
record Analysed(Findings findings, String json, String html) {

    /** Analyses what a trial's folder holds. */
    static Analysed of(TrialFiles files, String label, AnalysisOptions options) {
        var findings = findings(files, options);
        var html = Report.of(files.trial(), TrialOptions.layout(files), findings)
                .labelled(label)
                .html();
        return new Analysed(findings, ResultsJson.of(findings), html);
    }

    /** What the analysis of a trial's folder finds, nothing written. */
    static Findings findings(TrialFiles files, AnalysisOptions options) {
        var layout = TrialOptions.layout(files);
        if (files.readings().isEmpty()) {
            throw TrialOptions.missing("readings.csv", "readings; one line per tray, day and counting frame");
        }
        return Analysis.of(
                files.trial(), layout, files.readings(), TrialOptions.sealing(files), Version.text(), options);
    }

    /** Writes results.json and report.html, each whole or not at all. */
    Findings write(TrialFolder folder) {
        folder.write("results.json", json.getBytes(StandardCharsets.UTF_8));
        folder.write("report.html", html.getBytes(StandardCharsets.UTF_8));
        return findings;
    }
}
