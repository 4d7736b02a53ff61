package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.fairtray.design.Fault;
import org.fairtray.design.Faults;
import org.fairtray.findings.Words;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/** What to bear in mind with the sizes of a layout: what can't be worked out, and where the numbers are rough. */
final class SizingNotes {
    private final SizedLayout sized;
    private final Trial trial;
    private final Assumptions assumptions;
    private final List<String> notes = new ArrayList<>();

    private SizingNotes(SizedLayout sized) {
        this.sized = sized;
        this.trial = sized.structure().trial();
        this.assumptions = sized.assumptions();
    }

    static List<String> of(SizedLayout sized) {
        var notes = new SizingNotes(sized);
        if (!sized.counts()) {
            notes.notes.add(
                    "The first outcome, " + notes.trial.outcomes().get(0).name()
                            + ", is a measure. What a trial sees of it hangs on how far trays treated alike differ in it, which the"
                            + " plan doesn't say.");
            return notes.notes;
        }
        notes.rates();
        notes.untested();
        notes.places();
        notes.seedsOfAnOutcome();
        notes.notOrthogonal();
        return List.copyOf(notes.notes);
    }

    private void rates() {
        if (!assumptions.possible()) {
            notes.add(impossible(assumptions));
            return;
        }
        if (sized.expectsFew()) {
            notes.add(
                    "Fewer than five are expected to come out, or to fail, in a tray: there the closed form is rough, and"
                            + " invented trials tell more.");
        }
    }

    /** Why no power can be worked out. */
    static String impossible(Assumptions assumptions) {
        if (assumptions.controlRate() <= 0) {
            return "control_rate is 0: trays of which nothing comes don't differ, and nothing can be worked out. Say what"
                    + " you would expect in a large trial, such as 0.02.";
        }
        if (assumptions.controlRate() >= 1) {
            return "control_rate is 1: nothing can rise above all seeds of all trays. Plan for what fails, and say what you"
                    + " would expect of it in a large trial, such as 0.02.";
        }
        return "control_rate and worthwhile make " + Words.percent(assumptions.raisedRate())
                + ", and no rate can rise that far. Take a smaller worthwhile, or plan for what fails: then"
                + " control_rate is " + Words.measure(1 - assumptions.controlRate())
                + ", and a rise of it is a fall of what comes out.";
    }

    private void untested() {
        var faults = Faults.of(sized.structure());
        sized.untested().forEach(f -> notes.add(untested(f, faults)));
    }

    /** Why nothing can test a factor, and what mends it. */
    static String untested(Factor factor, List<Fault> faults) {
        return faults.stream()
                .filter(f -> f.factors().contains(factor.name()))
                .findFirst()
                .map(f -> "Nothing can test " + factor.name() + ": " + f.sentence() + " " + f.remedy())
                .orElse("Nothing can test " + factor.name()
                        + ": no tray is left over to hold it against. Give each of its levels more trays.");
    }

    private void places() {
        for (var test : sized.tests()) {
            var alike = test.traysInOne().keySet().stream()
                    .filter(l -> !l.equals(Place.TRAY) && l.equals(test.unit()) && !test.onTrays())
                    .filter(l -> assumptions.placeSd(l) == 0)
                    .collect(Collectors.joining(", "));
            if (test.term().isMain() && !alike.isEmpty()) {
                notes.add("expect says nothing of how far one " + alike + " differs from another (place_sd), so "
                        + test.term().name() + " is worked out as if they were all alike. That is hopeful.");
            }
        }
    }

    private void seedsOfAnOutcome() {
        boolean ofGerminated = trial.outcomes().get(0).match(c -> c.of().equals("germinated"), m -> false);
        if (ofGerminated) {
            notes.add(trial.outcomes().get(0).name()
                    + " is counted of those that germinated. Every seed is taken to germinate; where a share of them does,"
                    + " reckon with as many fewer seeds in a frame.");
        }
    }

    private void notOrthogonal() {
        if (sized.structure().isSpread()) {
            notes.add("What is known of some terms lies in several strata. The closed form counts on the one that holds"
                    + " most of it, so the analysis sees a little more.");
        }
    }
}
