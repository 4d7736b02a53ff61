package org.fairtray.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import org.fairtray.findings.Findings;
import org.fairtray.report.charts.Axis;
import org.fairtray.report.charts.Curves;
import org.fairtray.report.charts.DotRows;
import org.fairtray.report.charts.Scatter;
import org.fairtray.report.charts.Visible;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/**
 * report.html: one file that needs no network and no script, for a grower to read on a phone or on paper, with the
 * statistician's tables under it.
 */
public final class Report {
    private final Trial trial;
    private final Layout layout;
    private final Findings findings;
    private final String label;
    private final List<Picture> pictures;

    private Report(Trial trial, Layout layout, Findings findings, String label, List<Picture> pictures) {
        this.trial = trial;
        this.layout = layout;
        this.findings = findings;
        this.label = label;
        this.pictures = List.copyOf(pictures);
    }

    /**
     * A report on what was found.
     *
     * @throws IllegalArgumentException if the findings hold no outcome
     */
    public static Report of(Trial trial, Layout layout, Findings findings) {
        if (findings.outcomes().isEmpty()) {
            throw new IllegalArgumentException("findings without an outcome: expected at least one");
        }
        return new Report(trial, layout, findings, "", List.of());
    }

    /** The same with a word of warning over it, such as that the data are invented. */
    public Report labelled(String words) {
        return new Report(trial, layout, findings, words, pictures);
    }

    /** The same with photos that were chosen for it. */
    public Report showing(List<Picture> photos) {
        return new Report(trial, layout, findings, label, photos);
    }

    /** The whole page. */
    public String html() {
        return rendered("report/report.jte", new ReportPage(trial, layout, findings).view(label, style(), pictures));
    }

    /** A page of what a view holds. */
    static String rendered(String template, Record view) {
        var output = new StringOutput(64 * 1024);
        engine().render(template, view, output);
        return Visible.text(output.toString());
    }

    /**
     * Loads fonts, the drawing libraries and the page ahead of time. Worth calling on a thread of its own while an
     * analysis runs; needless otherwise.
     */
    public static void prepare() {
        var axis = new Axis("day", 0, 2);
        var point = new Curves.Point(1, 1);
        var row = new DotRows.Row("tray", "1 %", List.of(1.0), 1.0, 0.0, 2.0);
        new DotRows("", "", axis, List.of(row), Optional.empty()).svg("early-rows");
        new Curves("", "", axis, axis, List.of(new Curves.Line("tray", List.of(point)))).svg("early-curves");
        new Scatter("", "", axis, axis, List.of(point)).svg("early-scatter");
        engine();
    }

    private static TemplateEngine engine() {
        return TemplateEngine.createPrecompiled(null, ContentType.Html, null, "org.fairtray.report.pages");
    }

    /** The look that all pages share. */
    static String style() {
        try (var css = Report.class.getResourceAsStream("report.css")) {
            return new String(css.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
