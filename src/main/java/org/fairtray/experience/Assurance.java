package org.fairtray.experience;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.fairtray.sizing.Assumptions;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.StrataPower;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/**
 * A plan sized with what an earlier trial showed, and with how unsure that is: the power of each term averaged over the
 * draws of an {@link Experience}.
 *
 * <p>Source: O'Hagan, Stevens and Campbell (2005), Assurance in clinical trial design, Pharmaceutical Statistics 4, 187-201
 * (from memory).
 */
public final class Assurance {
    private final Trial plan;
    private final Experience learned;

    /** @param plan the trial to be sized */
    public Assurance(Trial plan, Experience learned) {
        this.plan = plan;
        this.learned = learned;
    }

    /** The layout with the best guesses in place of what its plan expects. */
    public SizedLayout sized(Layout layout) {
        return SizedLayout.of(plan.expecting(learned.onto(plan)), layout, keys(), learned.trial());
    }

    private Set<String> keys() {
        var keys = new LinkedHashSet<String>();
        figures().forEach(f -> keys.add(f.key()));
        return keys;
    }

    private List<Sizing.Figure> figures() {
        var figures = new ArrayList<Sizing.Figure>();
        figures.add(figure("control_rate", learned.controlRate()));
        learned.trayCorrelation().ifPresent(r -> figures.add(figure("tray_correlation", r)));
        learned.placeSd().forEach((level, sd) -> {
            if (plan.place().names().contains(level)) {
                figures.add(figure("place_sd." + level, sd));
            }
        });
        learned.minutesPerFrame().ifPresent(m -> figures.add(figure("costs.minutes_per_frame", m)));
        return figures;
    }

    private static Sizing.Figure figure(String key, Learned learned) {
        return new Sizing.Figure(
                key, learned.value(), learned.likely().low(), learned.likely().high());
    }

    /** What was learned, and the assurance of every term that can be tested. */
    public Sizing.Earlier earlier(SizedLayout sized) {
        double worthwhile = sized.assumptions().worthwhile();
        var draws = learned.draws().stream()
                .map(d -> Assumptions.of(plan.expecting(learned.onto(plan, d))))
                .toList();
        var assurances = sized.tests().stream()
                .map(t -> new Sizing.Assurance(
                        t.term().name(),
                        new StrataPower(t, sized.assumptions(), sized.option()).power(worthwhile),
                        draws.stream()
                                .mapToDouble(a -> new StrataPower(t, a, sized.option()).power(worthwhile))
                                .average()
                                .orElseThrow()))
                .toList();
        return new Sizing.Earlier(learned.trial(), learned.outcome(), figures(), assurances);
    }
}
