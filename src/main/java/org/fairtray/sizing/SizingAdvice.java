package org.fairtray.sizing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;
import org.fairtray.design.Faults;
import org.fairtray.findings.Words;
import org.fairtray.trial.Factor;

/** What to do next, in plain words: enough as it is, more of which unit, other numbers of seeds; never silently more than fits. */
final class SizingAdvice {
    /** More seeds than so many times the plan's are no advice. */
    private static final int MOST_SEEDS = 4;

    /** A saving below a quarter isn't worth a word. */
    private static final double WORTH_SAVING = 0.75;

    private final SizedLayout sized;
    private final Assumptions assumptions;
    private final List<Sizing.Needed> needed;
    private final List<StrataPower> powers;

    SizingAdvice(SizedLayout sized, List<Sizing.Needed> needed) {
        this.sized = sized;
        this.assumptions = sized.assumptions();
        this.needed = needed;
        this.powers = sized.structure().trial().factors().stream()
                .flatMap(f -> sized.power(f).stream())
                .toList();
    }

    String text() {
        if (!sized.counts()) {
            return "The first outcome is a measure, and sizes are worked out for counts only.";
        }
        if (!assumptions.possible()) {
            return "Mend expect in the plan first. " + SizingNotes.impossible(assumptions);
        }
        var sentences = new ArrayList<String>();
        var untested = sized.untested();
        if (!untested.isEmpty()) {
            var faults = Faults.of(sized.structure());
            untested.forEach(f -> sentences.add(SizingNotes.untested(f, faults)));
        }
        var missed = needed.stream().filter(this::isMissed).toList();
        if (!missed.isEmpty()) {
            sentences.add(more(missed));
        } else if (untested.isEmpty()) {
            sentences.add(enough());
        }
        return String.join(" ", sentences);
    }

    private boolean isMissed(Sizing.Needed factor) {
        return !(power(factor).power(assumptions.worthwhile()) >= assumptions.power());
    }

    private StrataPower power(Sizing.Needed factor) {
        return powers.stream()
                .filter(p -> p.test().term().name().equals(factor.factor()))
                .findFirst()
                .orElseThrow();
    }

    private String goal() {
        return "a change of " + Words.points(assumptions.worthwhile()) + " in " + Words.percent(assumptions.power())
                + " of such trials";
    }

    private String more(List<Sizing.Needed> missed) {
        var names = missed.stream().map(Sizing.Needed::factor).collect(Collectors.joining(" and "));
        var hopeless = missed.stream().filter(n -> n.trays() == null).findFirst();
        if (hopeless.isPresent()) {
            return "Too small to see " + goal() + " for " + names + ", and for "
                    + hopeless.get().factor() + " not even " + SizedLayout.MOST_TIMES
                    + " times as many trays would do. Ask for a larger change." + seeds(missed);
        }
        var largest = missed.stream()
                .max(Comparator.comparingInt(Sizing.Needed::trays))
                .orElseThrow();
        return "Too small to see " + goal() + " for " + names + ". That takes about " + units(largest) + rack(largest)
                + "." + seeds(missed) + larger(largest);
    }

    private String units(Sizing.Needed n) {
        var structure = sized.structure();
        int now = (int) Math.round(n.unitsPerLevel() * factor(n).levels().size());
        String trays = n.trays() + " trays instead of " + structure.trays().size();
        return power(n).test().onTrays()
                ? trays
                : n.units() + " × " + n.unit() + " instead of " + now + " (" + n.neededPerLevel()
                        + " for each level of " + n.factor() + "; " + trays + ")";
    }

    private Factor factor(Sizing.Needed n) {
        return sized.structure().trial().factor(n.factor());
    }

    private String rack(Sizing.Needed n) {
        if (n.fits()) {
            return ", which the plan's place holds";
        }
        var place = sized.structure().trial().place();
        int byTrays = ceiling(n.trays(), place.trays());
        int byUnits = place.has(n.unit()) ? ceiling(n.units(), place.units(n.unit())) : 1;
        return ", more than the plan's place holds (" + place.trays() + " trays): a larger one, or "
                + Math.max(byTrays, byUnits) + " runs of it one after the other, with the run as the outermost level of"
                + " place";
    }

    private static int ceiling(int all, int inOne) {
        return (all + inOne - 1) / inOne;
    }

    private String seeds(List<Sizing.Needed> missed) {
        int planned = sized.option().seedsPerFrame();
        var enough = missed.stream()
                .map(n -> power(n).seedsNeeded(assumptions.worthwhile(), assumptions.power(), MOST_SEEDS * planned))
                .toList();
        if (enough.stream().allMatch(OptionalInt::isPresent)) {
            int most = enough.stream().mapToInt(OptionalInt::getAsInt).max().orElseThrow();
            return " Or count " + rounded(most) + " seeds in a frame instead of " + planned + ".";
        }
        return " More seeds in the same trays would not do.";
    }

    private String larger(Sizing.Needed n) {
        var smallest = power(n).smallest();
        return smallest.isEmpty()
                ? ""
                : " As it is, " + n.factor() + " has to make "
                        + Words.points(Math.ceil(100 * smallest.getAsDouble() - 1e-9) / 100) + " to be seen as often.";
    }

    private String enough() {
        return "Enough as it is: every factor would show " + goal() + " or more." + saving() + interactions();
    }

    private String saving() {
        var savings = new ArrayList<String>();
        int planned = sized.option().seedsPerFrame();
        int seeds = rounded(Math.max(
                fewestSeeds(),
                powers.stream()
                        .mapToInt(p -> p.seedsNeeded(assumptions.worthwhile(), assumptions.power(), planned)
                                .orElse(planned))
                        .max()
                        .orElse(planned)));
        if (seeds <= WORTH_SAVING * planned) {
            savings.add(seeds + " seeds in a frame instead of " + planned);
        }
        int trays = sized.structure().trays().size();
        int fewest = needed.stream()
                .mapToInt(n -> n.trays() == null ? trays : n.trays())
                .max()
                .orElse(trays);
        if (fewest <= WORTH_SAVING * trays) {
            savings.add(fewest + " trays instead of " + trays);
        }
        return savings.isEmpty() ? "" : " So would " + String.join(", or ", savings) + ".";
    }

    /** So many in a frame that of neither kind fewer are expected in a tray than the closed form is good for. */
    private int fewestSeeds() {
        double rarer = Math.min(assumptions.controlRate(), 1 - assumptions.raisedRate());
        return (int) Math.ceil(SizedLayout.FEW / rarer / sized.option().frames());
    }

    private String interactions() {
        boolean missed =
                sized.closedForm().stream().anyMatch(c -> c.factors().size() > 1 && c.power() < assumptions.power());
        return missed ? " Factors that act together would be missed more often." : "";
    }

    /** A number that one can count by: up to the next 5 above 20. */
    private static int rounded(int seeds) {
        return seeds <= 20 ? seeds : (seeds + 4) / 5 * 5;
    }
}
