package org.fairtray.followup;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** A trial's question narrowed to what is still open: its kept factors, with the others at one level in all trays. */
final class Question {
    private static final String USUAL = "usual";
    private static final String BETTER = "better";

    private final Trial trial;
    private final List<Decision> decisions;
    private final Treatment settled;

    Question(Trial trial, List<Decision> decisions) {
        this.trial = trial;
        this.decisions = decisions;
        var levels = new LinkedHashMap<String, String>();
        decisions.stream()
                .filter(d -> !d.kept())
                .forEach(d -> levels.put(d.factor(), d.levels().get(0)));
        this.settled = new Treatment(levels);
    }

    /** What becomes of each factor. */
    List<Decision> decisions() {
        return decisions;
    }

    /** The levels that all trays get. */
    Treatment settled() {
        return settled;
    }

    /** The trial with the kept factors alone; where none is, the best against the control; empty where those are the same. */
    Optional<Trial> next() {
        return decisions.stream().anyMatch(Decision::kept) ? Optional.of(narrowed(List.of())) : confirming();
    }

    /**
     * The trial with the kept factors but some.
     *
     * @param waiting factors that get their control for now
     */
    Trial narrowed(List<String> waiting) {
        var fixed = new LinkedHashMap<>(settled.levels());
        waiting.forEach(f -> fixed.put(f, trial.controlLevel(trial.factor(f))));
        var factors = decisions.stream()
                .filter(d -> d.kept() && !waiting.contains(d.factor()))
                .map(d -> withLevels(trial.factor(d.factor()), d.levels()))
                .toList();
        var names = factors.stream().map(Factor::name).toList();
        var control = new LinkedHashMap<String, String>();
        factors.stream()
                .filter(f -> f.levels().contains(trial.controlLevel(f)))
                .forEach(f -> control.put(f.name(), trial.controlLevel(f)));
        return trial.asking(
                trial.title() + ", followed up",
                Optional.of((names.size() == 1
                                ? "Does " + names.get(0) + " change "
                                : "Which of " + String.join(", ", names) + " changes ")
                        + what() + inAllTrays(fixed) + "?"),
                factors,
                new Treatment(control),
                notMade(factors, new Treatment(fixed)),
                batches(names));
    }

    private String what() {
        var outcome = trial.outcomes().get(0);
        return outcome.match(c -> "how many are " + c.name(), m -> m.name());
    }

    private String inAllTrays(Map<String, String> fixed) {
        return fixed.isEmpty() ? "" : ", with " + described(fixed) + " in all trays";
    }

    private String described(Map<String, String> levels) {
        return levels.entrySet().stream()
                .map(e -> e.getKey() + " " + trial.factor(e.getKey()).describe(e.getValue()))
                .collect(Collectors.joining(", "));
    }

    private static Factor withLevels(Factor factor, List<String> levels) {
        return new Factor(factor.name(), factor.unit(), levels, factor.appliedTo());
    }

    private List<Treatment> notMade(List<Factor> factors, Treatment fixed) {
        var names = factors.stream().map(Factor::name).toList();
        var notMade = new ArrayList<Treatment>();
        for (var never : trial.never()) {
            boolean meets = never.levels().entrySet().stream()
                    .filter(e -> fixed.level(e.getKey()) != null)
                    .allMatch(e -> e.getValue().equals(fixed.level(e.getKey())));
            var left = never.only(names);
            boolean sown = factors.stream()
                    .allMatch(f -> left.level(f.name()) == null || f.levels().contains(left.level(f.name())));
            if (meets && sown && !left.levels().isEmpty()) {
                notMade.add(left);
            }
        }
        return List.copyOf(notMade);
    }

    private List<Batch> batches(List<String> factors) {
        return trial.batches().stream().filter(b -> factors.contains(b.of())).toList();
    }

    /** What was found to be best against the control once more, as one factor. */
    private Optional<Trial> confirming() {
        var usual = new LinkedHashMap<String, String>();
        var better = new LinkedHashMap<String, String>();
        settled.levels().forEach((factor, level) -> {
            String control = trial.controlLevel(trial.factor(factor));
            if (!level.equals(control)) {
                usual.put(factor, control);
                better.put(factor, level);
            }
        });
        if (better.isEmpty()) {
            return Optional.empty();
        }
        var same = new LinkedHashMap<>(settled.levels());
        better.keySet().forEach(same::remove);
        var method = new Factor(freeName(), Optional.empty(), List.of(USUAL, BETTER), largestUnits(better));
        return Optional.of(trial.asking(
                trial.title() + ", confirmed",
                Optional.of("Does " + described(better) + " (" + BETTER + ") do as well again against "
                        + described(usual) + " (" + USUAL + "), with fresh seed" + inAllTrays(same) + "?"),
                List.of(method),
                new Treatment(Map.of(method.name(), USUAL)),
                List.of(),
                List.of()));
    }

    private String freeName() {
        return trial.place().has("method")
                        || trial.outcomes().stream().anyMatch(o -> o.name().equals("method"))
                ? "way of sowing"
                : "method";
    }

    /** Of the levels that the changed factors are applied to, the one with the fewest units: all of them can be given there. */
    private String largestUnits(Map<String, String> better) {
        return better.keySet().stream()
                .map(f -> trial.factor(f).appliedTo())
                .min((a, b) -> trial.place().units(a) - trial.place().units(b))
                .orElse(Place.TRAY);
    }
}
