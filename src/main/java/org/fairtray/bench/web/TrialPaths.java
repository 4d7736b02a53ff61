package org.fairtray.bench.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.bench.Refused;
import org.fairtray.bench.Stage;
import org.fairtray.bench.TrialBench;
import org.fairtray.bench.TrialDesk;
import org.fairtray.bench.Trials;
import org.fairtray.bench.planning.Advice;
import org.fairtray.files.ReadyPlans;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.TrialFolder;
import org.fairtray.jobs.Needed;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Place;

/** Trials, their plans and their layouts. */
final class TrialPaths {
    private final Trials trials;
    private final Optional<String> shared;

    /** @param shared the address for phones, where the bench is shared */
    TrialPaths(Trials trials, Optional<String> shared) {
        this.trials = trials;
        this.shared = shared;
    }

    List<Route> routes() {
        return List.of(
                Route.of("GET", "/api/trials", Role.LOOK, ask -> Answer.json(all())),
                Route.of("POST", "/api/trials", Role.HOST, this::begin),
                Route.of("GET", "/api/ready-plans", Role.HOST, ask -> Answer.json(readyPlans())),
                Route.of("GET", "/api/trials/*", Role.LOOK, this::view),
                Route.of(
                        "GET",
                        "/api/trials/*/plan",
                        Role.HOST,
                        ask -> Answer.json(desk(ask).plan())),
                Route.of("PUT", "/api/trials/*/plan", Role.HOST, this::savePlan),
                Route.of("POST", "/api/trials/*/advice", Role.HOST, this::advise),
                Route.of("POST", "/api/trials/*/lay", Role.HOST, this::lay),
                Route.of("GET", "/api/trials/*/rack", Role.LOOK, this::rack),
                Route.of("POST", "/api/trials/*/sheets", Role.HOST, this::print));
    }

    private TrialDesk desk(Ask ask) {
        return find(trials, ask);
    }

    /** The trial that an ask names. */
    static TrialDesk find(Trials trials, Ask ask) {
        return trials.find(ask.part(0))
                .orElseThrow(() -> new TurnedAway(404, "There is no trial '" + ask.part(0) + "' here."));
    }

    /** A trial among others; what is to do is a sentence. Whatever is missing is null. */
    private record Line(String id, String title, String state, Integer today, String toDo) {}

    private record All(List<Line> trials, boolean folder) {}

    private All all() {
        var lines = new ArrayList<Line>();
        trials.all().forEach((id, desk) -> lines.add(line(id, desk)));
        return new All(lines, trials.several());
    }

    private static Line line(String id, TrialDesk desk) {
        var stage = desk.stage();
        if (stage == Stage.BROKEN) {
            return new Line(id, id, stage.word(), null, null);
        }
        var title = desk.files().trial().title();
        if (stage == Stage.PLANNED) {
            return new Line(id, title, stage.word(), null, null);
        }
        var bench = desk.bench();
        return new Line(id, title, stage.word(), bench.today().day(), toDo(bench));
    }

    private static String toDo(TrialBench bench) {
        var left = bench.toDo();
        if (left == null) {
            return bench.today().why();
        }
        return left == 0 ? "All trays are counted today." : left + " trays are still to be counted today.";
    }

    private record New(String name, String like, String plan) {}

    private record Begun(String id) {}

    private Answer begin(Ask ask) {
        var asked = ask.json(New.class);
        trials.begin(asked.name(), text(asked));
        return Answer.json(new Begun(asked.name()));
    }

    private static String text(New asked) {
        if (asked.plan() != null) {
            return asked.plan();
        }
        if (asked.like() == null || asked.like().isEmpty()) {
            return ReadyPlans.plain();
        }
        if (!ReadyPlans.names().contains(asked.like())) {
            throw new Refused("There is " + ReadyPlans.missing(asked.like()) + ".");
        }
        return ReadyPlans.like(asked.like());
    }

    private record ReadyPlan(String name, String title) {}

    private static List<ReadyPlan> readyPlans() {
        return ReadyPlans.names().stream()
                .map(n -> new ReadyPlan(
                        n, TrialFolder.readPlan(ReadyPlans.like(n)).title()))
                .toList();
    }

    /** A trial, for its own page. Whatever is missing is null. */
    private record View(
            String id,
            String title,
            String question,
            String state,
            String crop,
            List<Integer> days,
            List<Advice.Trouble> problems,
            List<String> notices) {}

    /** How far its counting is. Whatever is missing is null. */
    private record Counting(
            String sownOn,
            Integer today,
            String todayWhy,
            boolean opened,
            String openedAt,
            int countedAfterOpening,
            boolean canDraw,
            boolean analysed,
            int readings,
            Integer toDo) {
        static Counting none(boolean canDraw) {
            return new Counting(null, null, null, false, null, 0, canDraw, false, 0, null);
        }
    }

    private Answer view(Ask ask) {
        var id = ask.part(0);
        var desk = desk(ask);
        var stage = desk.stage();
        if (stage == Stage.BROKEN) {
            var problems = desk.problems().stream().map(Advice.Trouble::of).toList();
            var view = new View(id, id, null, stage.word(), null, List.of(), problems, List.of());
            return Answer.joined(view, Counting.none(false));
        }
        var files = desk.files();
        var view = new View(
                id,
                files.trial().title(),
                files.trial().question().orElse(null),
                stage.word(),
                crop(files),
                files.trial().counting().days(),
                List.of(),
                Stream.concat(desk.readOnly().stream(), files.notices().stream())
                        .toList());
        return Answer.joined(view, stage == Stage.PLANNED ? Counting.none(true) : counting(desk, stage));
    }

    private static Counting counting(TrialDesk desk, Stage stage) {
        var bench = desk.bench();
        var counts = bench.counts(Long.MAX_VALUE);
        return new Counting(
                counts.sownOn(),
                counts.today().day(),
                counts.today().why(),
                counts.opened(),
                counts.openedAt(),
                counts.countedAfterOpening(),
                stage == Stage.LAID,
                desk.folder().path().resolve("report.html").toFile().exists(),
                bench.readings().size(),
                bench.toDo());
    }

    private static String crop(TrialFiles files) {
        return files.trial().crop().map(c -> c.name()).orElse(null);
    }

    private record Plan(String text, String sha256) {}

    private record Saved(String sha256) {}

    private Answer savePlan(Ask ask) {
        var plan = ask.json(Plan.class);
        if (plan.text() == null || plan.sha256() == null) {
            return Answer.refusal(400, "The plan's text or the one it replaces is missing.");
        }
        return Answer.json(
                new Saved(desk(ask).savePlan(plan.text(), plan.sha256()).sha256()));
    }

    private Answer advise(Ask ask) {
        var text = ask.json(Plan.class).text();
        return Answer.json(Advice.of(text == null ? "" : text));
    }

    private record Seed(String seed) {}

    private record Laid(
            String design, long seed, int trays, List<String> files, String readingsSetAside, List<String> lines) {}

    private Answer lay(Ask ask) {
        var text = ask.json(Seed.class).seed();
        var laid = desk(ask)
                .lay(Optional.ofNullable(text).filter(t -> !t.isBlank()).map(TrialPaths::number));
        var result = laid.result();
        return Answer.json(new Laid(
                result.design(),
                result.seed(),
                result.trays(),
                result.files(),
                result.readingsSetAside(),
                laid.forPeople()));
    }

    private static long number(String text) {
        try {
            return Long.parseLong(text.strip());
        } catch (NumberFormatException e) {
            throw new Refused("A seed is a whole number; '" + text + "' is none.");
        }
    }

    private record At(String tray, List<Integer> at) {}

    private record Rack(List<Advice.Level> place, List<At> trays, boolean innermostRunsDown) {}

    private Answer rack(Ask ask) {
        var files = desk(ask).files();
        Place place = files.trial().place();
        var trays = Layout.walked(Needed.layout(files).trays()).stream()
                .map(t -> new At(t.code(), t.stand().at()))
                .toList();
        return Answer.json(new Rack(Advice.Level.of(place), trays, place.innermostRunsDown()));
    }

    private record Printed(String paper) {}

    private record Files(List<String> files) {}

    private Answer print(Ask ask) {
        var paper = "letter".equals(ask.json(Printed.class).paper()) ? Paper.LETTER : Paper.A4;
        var address = shared.map(url -> url + "/trial/" + Addresses.encoded(ask.part(0)));
        return Answer.json(new Files(desk(ask).print(paper, address)));
    }
}
