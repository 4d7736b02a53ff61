package org.fairtray.bench.web;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.fairtray.bench.TrialBench;
import org.fairtray.bench.TrialDesk;
import org.fairtray.bench.Trials;
import org.fairtray.bench.progress.Progress;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;
import org.fairtray.packs.PackFile;
import org.fairtray.sharing.LeftOut;
import org.fairtray.sharing.Packing;
import org.fairtray.trial.ShownPhoto;

/** What came of a trial: its files, its analysis, the next trial. */
final class ReadPaths {
    private static final Map<String, String> TYPES = Map.of(
            "sheets.pdf", "application/pdf",
            "key.pdf", "application/pdf",
            "readings.csv", "text/csv; charset=utf-8",
            "layout.csv", "text/csv; charset=utf-8",
            "results.json", "application/json; charset=utf-8",
            "report.html", "text/html; charset=utf-8");
    /** Files that say what trays got. */
    private static final Set<String> SEALED = Set.of("key.pdf", "layout.csv", "results.json", "report.html");

    private static final String REPORT_RULES = "default-src 'none'; style-src 'unsafe-inline'; img-src data:;"
            + " base-uri 'none'; form-action 'none'; frame-ancestors 'self'";
    private static final String PICTURE_RULES = "default-src 'none'; style-src 'unsafe-inline'";
    private static final String OTHER_RULES = "frame-ancestors 'self'";

    private final Trials trials;

    ReadPaths(Trials trials) {
        this.trials = trials;
    }

    List<Route> routes() {
        return List.of(
                Route.of("GET", "/api/trials/*/files/*", Role.LOOK, this::file),
                Route.of("GET", "/api/trials/*/curves", Role.LOOK, this::curves),
                Route.of("GET", "/api/trials/*/curves/tray/*/*.svg", Role.LOOK, this::trayCurves),
                Route.of("GET", "/api/trials/*/curves/treatment/*.svg", Role.LOOK, this::treatmentCurves),
                Route.of("GET", "/api/trials/*/shown-photos", Role.LOOK, ask -> shownPhotos(desk(ask))),
                Route.of("PUT", "/api/trials/*/shown-photos", Role.HOST, this::showPhoto),
                Route.of("POST", "/api/trials/*/analyse", Role.HOST, this::analyse),
                Route.of("POST", "/api/trials/*/next", Role.HOST, this::next),
                Route.of("GET", "/api/trials/*/pack", Role.HOST, this::packing),
                Route.of("GET", "/api/trials/*/pack.zip", Role.HOST, this::pack));
    }

    private TrialDesk desk(Ask ask) {
        return TrialPaths.find(trials, ask);
    }

    private Answer file(Ask ask) {
        var name = ask.part(1);
        if (!TYPES.containsKey(name)) {
            return Answer.refusal(404, "There is no such file.");
        }
        var desk = desk(ask);
        if (SEALED.contains(name) && !desk.bench().opened()) {
            return Answer.refusal(409, "That says what each tray got. It is here when the seal is opened.");
        }
        return desk.folder()
                .bytes(name)
                .map(bytes -> Answer.of(TYPES.get(name), bytes)
                        .with("Content-Security-Policy", name.equals("report.html") ? REPORT_RULES : OTHER_RULES))
                .orElseGet(() -> Answer.refusal(404, "There is no " + name + " yet."));
    }

    /** What pages are told of how counts come on; treatments are null while the seal is shut. */
    private record Curves(List<Progress.Column> columns, List<Progress.Mean> treatments, String warning) {}

    private static Progress progress(TrialBench bench) {
        return Progress.of(bench.trial(), bench.layout(), bench.readings());
    }

    private Answer curves(Ask ask) {
        var bench = desk(ask).bench();
        var progress = progress(bench);
        return Answer.json(
                new Curves(progress.columns(), bench.opened() ? progress.treatments() : null, Progress.WARNING));
    }

    private Answer trayCurves(Ask ask) {
        var progress = progress(desk(ask).bench());
        boolean there = progress.columns().stream()
                .anyMatch(c -> c.name().equals(ask.part(1)) && isUpTo(ask.part(2), c.trayCharts()));
        return there
                ? picture(progress.trayChart(ask.part(1), Integer.parseInt(ask.part(2))))
                : Answer.refusal(404, "There is no such picture.");
    }

    private static boolean isUpTo(String number, int most) {
        return number.matches("[1-9]\\d{0,3}") && Integer.parseInt(number) <= most;
    }

    private Answer treatmentCurves(Ask ask) {
        var bench = desk(ask).bench();
        if (!bench.opened()) {
            return Answer.refusal(409, "That says what each tray got. It is here when the seal is opened.");
        }
        var progress = progress(bench);
        return progress.columns().stream().anyMatch(c -> c.name().equals(ask.part(1)))
                ? picture(progress.treatmentChart(ask.part(1)))
                : Answer.refusal(404, "There is no such picture.");
    }

    private static Answer picture(String svg) {
        return Answer.of("image/svg+xml", svg.getBytes(StandardCharsets.UTF_8))
                .with("Content-Security-Policy", PICTURE_RULES);
    }

    private record Shown(List<ShownPhoto> photos) {}

    private static Answer shownPhotos(TrialDesk desk) {
        return Answer.json(new Shown(desk.bench().shownPhotos()));
    }

    private record Show(String file, boolean shown, String words) {}

    private Answer showPhoto(Ask ask) {
        var show = ask.json(Show.class);
        desk(ask).bench().show(show.file(), show.shown(), show.words() == null ? "" : show.words());
        return shownPhotos(desk(ask));
    }

    private record Verdict(String factor, String verdict, String sentence) {}

    private record Outcome(String name, int day, List<Verdict> verdicts) {}

    private record Analysis(List<String> lines, List<String> warnings, List<Outcome> outcomes) {}

    private Answer analyse(Ask ask) {
        Findings findings = desk(ask).analyse();
        var outcomes = findings.outcomes().stream()
                .map(o -> new Outcome(
                        o.name(),
                        o.day(),
                        o.verdicts().stream()
                                .map(v -> new Verdict(v.factor(), v.verdict(), v.sentence()))
                                .toList()))
                .toList();
        var warnings = findings.warnings().stream().map(w -> w.sentence()).toList();
        return Answer.json(new Analysis(Analysed.forPeople(findings), warnings, outcomes));
    }

    /** What pages are told of a pack before it is made. */
    private record Pack(String name, List<String> leftOut, String never, List<String> notices) {}

    private Answer packing(Ask ask) {
        var packing = desk(ask).packing();
        return Answer.json(new Pack(
                PackFile.nameFor(packing.title()),
                packing.leftOut().stream().map(LeftOut::what).toList(),
                Packing.NEVER,
                packing.notices()));
    }

    private Answer pack(Ask ask) {
        var packing = desk(ask).packing();
        return Answer.of("application/zip", packing.pack())
                .with("Content-Disposition", "attachment; filename=\"" + PackFile.nameFor(packing.title()) + "\"");
    }

    private record Next(List<String> lines, String plan) {}

    private Answer next(Ask ask) {
        var planned = desk(ask).next();
        return Answer.json(new Next(planned.forPeople(), planned.plan().orElse(null)));
    }
}
