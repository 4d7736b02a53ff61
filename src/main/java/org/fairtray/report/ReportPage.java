package org.fairtray.report;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Collectors;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Progress;
import org.fairtray.report.pages.OutcomeView;
import org.fairtray.report.pages.ReportView;
import org.fairtray.report.pages.ReportView.Fact;
import org.fairtray.trial.Cautions;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/** Puts the report's parts in their order. */
final class ReportPage {
    private final Trial trial;
    private final Layout layout;
    private final Findings findings;
    private final Names names;

    ReportPage(Trial trial, Layout layout, Findings findings) {
        this.trial = trial;
        this.layout = layout;
        this.findings = findings;
        names = new Names(trial);
    }

    ReportView view(String label, String style, List<Picture> pictures) {
        var columnsShown = new HashSet<String>();
        var outcomes = new ArrayList<OutcomeView>();
        for (int i = 0; i < findings.outcomes().size(); i++) {
            outcomes.add(outcome(findings.outcomes().get(i), "outcome-" + (i + 1), columnsShown));
        }
        return new ReportView(
                style,
                findings.trial(),
                trial.question().orElse(""),
                label,
                facts(),
                design().map(ReportPage::textbook).orElse(""),
                findings.warnings().stream().map(Findings.Warning::sentence).toList(),
                new TrayMap(trial, layout, first()).view(),
                new PhotoViews(names, layout).of(pictures),
                outcomes.get(0),
                outcomes.subList(1, outcomes.size()),
                definitions(),
                seal(),
                findings.seal() == null ? "" : findings.seal().sentence(),
                Cautions.ALL,
                findings.fairtray());
    }

    private OutcomeFindings first() {
        return findings.outcomes().get(0);
    }

    /** Charts take most of the time, so half of them are drawn on another core. */
    private OutcomeView outcome(OutcomeFindings outcome, String id, Set<String> columnsShown) {
        var figures = new OutcomeFigures(names, outcome, id);
        var progress = notYet(outcome.progress(), columnsShown);
        var byDay = CompletableFuture.supplyAsync(() -> new DayFigures(names, id).of(progress));
        var checks = CompletableFuture.supplyAsync(() -> new CheckFigures(trial.place(), outcome, id).all());
        var trays = figures.trays();
        var effects = figures.effects(trial.expectations().worthwhile());
        var groups = new OutcomeGroups(names, outcome, id).all(byDay.join(), checks.join());
        return new OutcomeView(
                id,
                Names.outcome(outcome),
                lead(outcome),
                outcome.verdicts().stream()
                        .map(v -> new OutcomeView.Card(v.factor(), v.verdict(), Digits.kept(v.sentence())))
                        .toList(),
                outcome.interactions().stream()
                        .map(i -> Digits.kept(i.sentence()))
                        .toList(),
                trays,
                new SummaryTables(names, outcome, id).summary(),
                effects,
                groups,
                methods(outcome));
    }

    /** Outcomes of one trial share their columns; each is drawn once. */
    private static List<Progress> notYet(List<Progress> progress, Set<String> columnsShown) {
        var fresh = progress.stream()
                .filter(p -> !columnsShown.contains(p.column()))
                .toList();
        fresh.forEach(p -> columnsShown.add(p.column()));
        return fresh;
    }

    private String lead(OutcomeFindings outcome) {
        var what = Names.isCount(outcome)
                ? "Counted out of the seeds " + ("germinated".equals(outcome.of()) ? "that germinated" : "sown")
                : "Measured";
        var out = outcome.leftOut().isEmpty()
                ? ""
                : "; " + outcome.leftOut().size() + " of " + layout.trays().size() + " could not be used";
        return what + ", on " + Digits.counted(outcome.trays(), "tray", "trays") + out + ".";
    }

    private static String methods(OutcomeFindings outcome) {
        var sentences = new ArrayList<>(outcome.methods());
        var logistic = outcome.logistic();
        if (logistic != null) {
            sentences.add(
                    logistic.used() == null
                            ? "No logistic model could be used. " + logistic.why()
                            : "Logistic model used: " + logistic.used() + ". " + logistic.why());
            if (logistic.separation() != null) {
                sentences.add(logistic.separation());
            }
        }
        return String.join(" ", sentences);
    }

    private List<Fact> facts() {
        var facts = new ArrayList<Fact>();
        trial.crop().ifPresent(c -> {
            facts.add(new Fact("Crop", c.name()));
            c.seedLot().ifPresent(l -> facts.add(new Fact("Seed lot", l)));
        });
        facts.add(new Fact("Trays", Digits.whole(layout.trays().size()) + ", standing as " + place()));
        design().ifPresent(d -> facts.add(new Fact("Design", d.name() + ", " + d.treatments())));
        facts.add(new Fact("Counted", counted()));
        return facts;
    }

    private Optional<Findings.Design> design() {
        return findings.outcomes().stream()
                .map(OutcomeFindings::design)
                .filter(Objects::nonNull)
                .findFirst();
    }

    private static String textbook(Findings.Design design) {
        return "Design: " + design.name() + "; in the textbook: " + design.source() + ". Place: " + design.place()
                + "; → leads to what lies in each, × joins what crosses."
                + (design.restrictions().isEmpty()
                        ? ""
                        : " Restricted: " + String.join("; ", design.restrictions()) + ".");
    }

    private String place() {
        return trial.place().levels().stream()
                .map(l -> l.name() + " 1" + (l.count() > 1 ? "–" + l.count() : ""))
                .collect(Collectors.joining(", "));
    }

    private String counted() {
        var counting = trial.counting();
        var days = counting.days().stream().map(String::valueOf).collect(Collectors.joining(", "));
        return (counting.days().size() == 1 ? "day " : "days ") + days + "; "
                + Digits.counted(counting.framesPerTray(), "frame", "frames") + " of "
                + Digits.counted(counting.seedsPerFrame(), "seed", "seeds") + " a tray";
    }

    private List<Fact> definitions() {
        return trial.definitions().entrySet().stream()
                .map(e -> new Fact(e.getKey(), e.getValue()))
                .toList();
    }

    private List<Fact> seal() {
        var facts = new ArrayList<Fact>();
        facts.add(new Fact("Program", "fairtray " + findings.fairtray()));
        var seal = findings.seal();
        if (seal != null) {
            add(
                    facts,
                    "Seed of the draw",
                    seal.seed() == null ? null : seal.seed().toString());
            add(facts, "Generator", seal.generator());
            add(facts, "Drawn at", seal.time());
            add(facts, "Drawn by", seal.version() == null ? null : "fairtray " + seal.version());
            add(facts, "plan.yaml, SHA-256", seal.planSha256());
            add(facts, "layout.csv, SHA-256", seal.layoutSha256());
        }
        return facts;
    }

    private static void add(List<Fact> facts, String name, String value) {
        if (value != null) {
            facts.add(new Fact(name, value));
        }
    }
}
