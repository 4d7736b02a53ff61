package org.fairtray.bench.web;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.fairtray.bench.TrialDesk;
import org.fairtray.bench.Trials;
import org.fairtray.findings.Findings;
import org.fairtray.jobs.Analysed;

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
    private static final String OTHER_RULES = "frame-ancestors 'self'";

    private final Trials trials;

    ReadPaths(Trials trials) {
        this.trials = trials;
    }

    List<Route> routes() {
        return List.of(
                Route.of("GET", "/api/trials/*/files/*", Role.LOOK, this::file),
                Route.of("POST", "/api/trials/*/analyse", Role.HOST, this::analyse),
                Route.of("POST", "/api/trials/*/next", Role.HOST, this::next));
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

    private record Next(List<String> lines, String plan) {}

    private Answer next(Ask ask) {
        var planned = desk(ask).next();
        return Answer.json(new Next(planned.forPeople(), planned.plan().orElse(null)));
    }
}
