package org.fairtray.bench.planning;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.fairtray.audit.Audit;
import org.fairtray.bench.planning.Advice.Trouble;
import org.fairtray.design.DesignName;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.design.Structure;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.Assumption;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.spending.Bill;
import org.fairtray.trial.Cautions;
import org.fairtray.trial.Layout;
import org.fairtray.trial.SeedsSown;
import org.fairtray.trial.Trial;

/** Works out what can be said of the text of a plan. */
final class Advising {
    private static final String PLAN = "plan.yaml";
    private static final Pattern PLACE = Pattern.compile("place\\s*:.*", Pattern.DOTALL);
    private static final String TOO_LONG =
            "Its design, power, costs and faults take too long to work out while you type."
                    + " Save the plan, and run fairtray size and fairtray audit on its folder.";

    private final String text;

    Advising(String text) {
        this.text = text;
    }

    Advice advice() {
        Trial trial;
        try {
            trial = TrialFiles.of(Map.of(PLAN, text.getBytes(StandardCharsets.UTF_8)))
                    .trial();
        } catch (ProblemsException e) {
            return Advice.unreadable(e.problems().stream().map(Trouble::of).toList());
        }
        try {
            return new PlannedLayout(trial)
                    .draw()
                    .map(layout -> whole(trial, layout))
                    .orElseGet(() -> known(trial, List.of(), List.of(TOO_LONG)));
        } catch (DoesNotFitException e) {
            return known(trial, e.reasons().stream().map(this::misfit).toList(), List.of());
        } catch (RuntimeException e) {
            return known(trial, List.of(), List.of("The program failed at this plan, which it should not: " + e));
        }
    }

    /** What doesn't fit is told of the line at which the place begins. */
    private Trouble misfit(String reason) {
        var lines = text.lines().toList();
        int line = 0;
        for (int i = 0; i < lines.size() && line == 0; i++) {
            line = PLACE.matcher(lines.get(i)).matches() ? i + 1 : 0;
        }
        return new Trouble(PLAN, line, null, null, null, reason);
    }

    /** What a plan says without a layout. */
    private static Advice known(Trial trial, List<Trouble> problems, List<String> notes) {
        return new Advice(
                problems,
                trial.title(),
                Advice.Level.of(trial.place()),
                applied(trial),
                trial.place().trays(),
                null,
                trial.treatments().size(),
                null,
                null,
                List.of(),
                null,
                null,
                null,
                List.of(),
                notes,
                Cautions.ALL);
    }

    private static Advice whole(Trial trial, Layout layout) {
        var name = DesignName.of(Structure.of(trial, layout.trays()));
        var sized = SizedLayout.of(trial, layout);
        var sizing = sized.sizing();
        var audit = Audit.ofPlan(trial, layout);
        var bill = Bill.of(trial, layout.trays().size());
        var power = trial.factorNames().stream()
                .map(f -> Power.of(f, sized, sizing))
                .toList();
        return new Advice(
                List.of(),
                trial.title(),
                Advice.Level.of(trial.place()),
                applied(trial),
                trial.place().trays(),
                layout.trays().size(),
                trial.treatments().size(),
                name.name(),
                name.sentence(),
                power,
                bill.items().isEmpty() ? null : cost(bill),
                Advice.finite(bill.minutesADay()),
                Advice.finite(bill.grams()),
                audit.findings().stream()
                        .map(f -> new Advice.Finding(f.kind(), f.sentence(), f.remedy()))
                        .toList(),
                notes(trial, sizing, audit, power, bill),
                Cautions.ALL);
    }

    private static List<Advice.Applied> applied(Trial trial) {
        return trial.factors().stream()
                .map(f -> new Advice.Applied(
                        f.name(), trial.appliedLevel(f), f.unit().orElse(null), f.levels()))
                .toList();
    }

    private static Advice.Cost cost(Bill bill) {
        return new Advice.Cost(
                bill.currency(),
                bill.total(),
                bill.items().stream()
                        .map(i -> new Advice.Cost.Item(i.what(), i.amount()))
                        .toList());
    }

    /** What sizes, audit and bill want to be borne in mind, each once. */
    private static List<String> notes(Trial trial, Sizing sizing, Audit audit, List<Power> power, Bill bill) {
        var notes = new ArrayList<String>();
        if (power.stream().anyMatch(p -> p.power() != null)) {
            taken(sizing).ifPresent(notes::add);
        }
        sizing.notes().stream()
                .filter(n -> power.stream().noneMatch(p -> p.sentence().equals(n)))
                .forEach(notes::add);
        audit.notes().forEach(notes::add);
        SeedsSown.of(trial).map(SeedsSown::sentence).ifPresent(notes::add);
        bill.missing().ifPresent(notes::add);
        return notes;
    }

    /** What the plan doesn't say and the powers rest on. */
    private static Optional<String> taken(Sizing sizing) {
        var usual = sizing.assumptions().stream().filter(a -> !a.planned()).toList();
        return usual.isEmpty()
                ? Optional.empty()
                : Optional.of("The plan doesn’t say "
                        + usual.stream().map(Assumption::key).collect(Collectors.joining(", "))
                        + ". Reckoned with "
                        + usual.stream().map(Advising::said).collect(Collectors.joining("; ")) + ".");
    }

    private static String said(Assumption assumption) {
        return assumption.key() + " " + assumption.value() + ": " + assumption.source();
    }
}
