package org.fairtray.trial;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * A trial as it is planned: the question, what is varied, where the trays stand, what is counted.
 *
 * @param title its name
 * @param question the question in the grower's words
 * @param crop what is sown
 * @param factors what is varied, one or more
 * @param control the levels that others are compared with; a factor it leaves out is compared with its first level
 * @param never combinations of levels that are not made
 * @param place where trays stand
 * @param definitions what counts as germinated, through ..., by outcome name
 * @param batches what several trays share
 * @param replicates trays per treatment; else as many as the place holds in full sets
 * @param counting when and how trays are counted
 * @param outcomes what is read, the question's own first
 * @param choices how it is to be analysed
 * @param expectations what is expected
 * @param costs what things cost
 * @param gramsPerTray grams of seed in a tray
 * @param rotation how trays change places
 * @param uncoverDay days after sowing on which weights and covers come off, from 1 to the last day of counting
 * @param restrictions what a layout must keep to besides
 * @param conditions what is the same for all trays, such as the mat where it isn't varied; word by name
 */
public record Trial(
        String title,
        Optional<String> question,
        Optional<Crop> crop,
        List<Factor> factors,
        Treatment control,
        List<Treatment> never,
        Place place,
        Map<String, String> definitions,
        List<Batch> batches,
        OptionalInt replicates,
        Counting counting,
        List<Outcome> outcomes,
        AnalysisChoices choices,
        Expectations expectations,
        Optional<Costs> costs,
        OptionalDouble gramsPerTray,
        Optional<Rotation> rotation,
        OptionalInt uncoverDay,
        List<Restriction> restrictions,
        Map<String, String> conditions) {

    /** @throws IllegalArgumentException if there is no factor or no outcome */
    public Trial {
        factors = List.copyOf(factors);
        never = List.copyOf(never);
        definitions = Collections.unmodifiableMap(new LinkedHashMap<>(definitions));
        batches = List.copyOf(batches);
        outcomes = List.copyOf(outcomes);
        restrictions = List.copyOf(restrictions);
        conditions = Collections.unmodifiableMap(new LinkedHashMap<>(conditions));
        if (factors.isEmpty() || outcomes.isEmpty()) {
            throw new IllegalArgumentException(
                    factors.size() + " factors, " + outcomes.size() + " outcomes: expected at least one of each");
        }
    }

    /** The factor of a name. */
    public Factor factor(String name) {
        return factors.stream()
                .filter(f -> f.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("no factor '" + name + "'"));
    }

    /** The level whose units a factor is given to, with the last place level called by the tray's own name. */
    public String appliedLevel(Factor factor) {
        return place.isTray(factor.appliedTo()) ? Place.TRAY : factor.appliedTo();
    }

    /** What trays with one level of a factor share, if its levels come in batches. */
    public Optional<Batch> batchOf(Factor factor) {
        return batches.stream().filter(b -> b.of().equals(factor.name())).findFirst();
    }

    /** Whether trays change their unit of a place level during the trial, so that it is not where a tray stood. */
    public boolean moves(String level) {
        return rotation.filter(r -> place.key(level).contains(place.names().indexOf(r.level())))
                .isPresent();
    }

    /** The level a factor's others are compared with. */
    public String controlLevel(Factor factor) {
        var named = control.level(factor.name());
        return named == null ? factor.levels().get(0) : named;
    }

    /** The levels of a factor with the control first, the rest in the plan's order. */
    public List<String> levelsFromControl(Factor factor) {
        var levels = new ArrayList<String>();
        levels.add(controlLevel(factor));
        factor.levels().stream().filter(l -> !l.equals(controlLevel(factor))).forEach(levels::add);
        return List.copyOf(levels);
    }

    /** Whether a treatment, or part of one, is made: it includes no combination that is never made. */
    public boolean made(Treatment treatment) {
        return never.stream().noneMatch(treatment::includes);
    }

    /** Every combination of levels of the given factors that is made; the last factor's levels change fastest. */
    public List<Treatment> treatments(List<Factor> of) {
        List<Treatment> all = List.of(new Treatment(Map.of()));
        for (Factor factor : of) {
            var longer = new ArrayList<Treatment>();
            for (var start : all) {
                for (var level : factor.levels()) {
                    longer.add(start.with(new Treatment(Map.of(factor.name(), level))));
                }
            }
            all = longer;
        }
        return all.stream().filter(this::made).toList();
    }

    /** Every treatment that is made. */
    public List<Treatment> treatments() {
        return treatments(factors);
    }

    /** The names of the factors, in the plan's order. */
    public List<String> factorNames() {
        return factors.stream().map(Factor::name).toList();
    }

    /** The same trial in another place. */
    public Trial at(Place elsewhere) {
        return at(elsewhere, replicates);
    }

    /** The same trial in another place, with another number of trays per treatment. */
    public Trial at(Place elsewhere, OptionalInt trays) {
        return like(title, question, factors, control, never, elsewhere, batches, trays, expectations, restrictions);
    }

    /** The same bench and counting with another question: other factors and what goes with them, unrestricted. */
    public Trial asking(
            String otherTitle,
            Optional<String> otherQuestion,
            List<Factor> others,
            Treatment otherControl,
            List<Treatment> notMade,
            List<Batch> shared) {
        return like(
                otherTitle,
                otherQuestion,
                others,
                otherControl,
                notMade,
                place,
                shared,
                replicates,
                expectations,
                List.of());
    }

    /** The same trial with other expectations. */
    public Trial expecting(Expectations others) {
        return like(title, question, factors, control, never, place, batches, replicates, others, restrictions);
    }

    /** Sown, counted and analysed like this one. */
    private Trial like(
            String otherTitle,
            Optional<String> otherQuestion,
            List<Factor> others,
            Treatment otherControl,
            List<Treatment> notMade,
            Place elsewhere,
            List<Batch> shared,
            OptionalInt trays,
            Expectations expected,
            List<Restriction> restricted) {
        return new Trial(
                otherTitle,
                otherQuestion,
                crop,
                others,
                otherControl,
                notMade,
                elsewhere,
                definitions,
                shared,
                trays,
                counting,
                outcomes,
                choices,
                expected,
                costs,
                gramsPerTray,
                rotation,
                uncoverDay,
                restricted,
                conditions);
    }
}
