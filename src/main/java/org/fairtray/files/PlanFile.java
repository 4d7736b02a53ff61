package org.fairtray.files;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Batch;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** plan.yaml: what is asked, what is varied, where the trays stand. */
final class PlanFile {
    static final String NAME = "plan.yaml";
    static final List<String> KEYS = List.of(
            "format",
            "trial",
            "question",
            "crop",
            "factors",
            "control",
            "never",
            "place",
            "definitions",
            "batches",
            "replicates",
            "counting",
            "outcomes",
            "analysis",
            "expect",
            "costs",
            "sowing",
            "rotation",
            "handling",
            "restrictions",
            "conditions");
    private static final int FORMAT = 1;
    private static final int MOST_REPLICATES = 1_000_000;

    private final Keys keys;
    private final Problems problems;

    private PlanFile(Keys keys, Problems problems) {
        this.keys = keys;
        this.problems = problems;
    }

    /** What is varied, and where. */
    private record Varied(
            List<String> placeNames,
            Optional<Place> place,
            List<Factor> factors,
            List<Batch> batches,
            Treatment control,
            List<Treatment> never) {}

    /** What is read, and when. */
    private record Counted(Optional<Counting> counting, List<Outcome> outcomes, Map<String, String> definitions) {}

    /**
     * The trial that a plan describes.
     *
     * @throws ProblemsException with everything that is wrong with the plan
     */
    static Trial read(StoredFile file) {
        var problems = new Problems(file.name());
        var keys = PlanSyntax.root(file, problems).keys(KEYS);
        return keys.map(k -> new PlanFile(k, problems).read())
                .orElseThrow(() -> new ProblemsException(problems.byLine()));
    }

    private Trial read() {
        keys.required("format").ifPresent(v -> v.whole(FORMAT, FORMAT));
        var title = keys.required("trial").flatMap(PlanValue::name);
        var question = keys.optional("question").flatMap(PlanValue::text);
        var crop = keys.optional("crop").flatMap(ExpectationReader::crop);
        var varied = varied();
        var replicates = keys.optional("replicates").map(v -> v.whole(1, MOST_REPLICATES));
        var counted = counted();
        var choices = keys.optional("analysis").map(ExpectationReader::analysis);
        var expected = keys.optional("expect").map(v -> ExpectationReader.expect(v, varied.placeNames()));
        var costs = keys.optional("costs").flatMap(ExpectationReader::costs);
        var grams = keys.optional("sowing").map(HandlingReader::grams).orElse(OptionalDouble.empty());
        var rotation =
                keys.optional("rotation").flatMap(v -> HandlingReader.rotation(v, varied.place(), varied.factors()));
        var uncover = keys.optional("handling")
                .map(v -> HandlingReader.uncoverDay(v, counted.counting()))
                .orElse(OptionalInt.empty());
        var restrictions = keys.optional("restrictions")
                .flatMap(v -> varied.place().map(p -> new RestrictionReader(p, varied.factors(), rotation).read(v)));
        var conditions = keys.optional("conditions")
                .map(v -> HandlingReader.conditions(v, varied.factors()))
                .orElse(Map.of());
        problems.throwIfAny();
        return new Trial(
                title.orElseThrow(),
                question,
                crop,
                varied.factors(),
                varied.control(),
                varied.never(),
                varied.place().orElseThrow(),
                counted.definitions(),
                varied.batches(),
                replicates.orElse(OptionalInt.empty()),
                counted.counting().orElseThrow(),
                counted.outcomes(),
                choices.orElse(AnalysisChoices.USUAL),
                expected.orElse(Expectations.none()),
                costs,
                grams,
                rotation,
                uncover,
                restrictions.orElse(List.of()),
                conditions);
    }

    private Varied varied() {
        var taken = new TakenNames();
        var places = new PlaceReader(taken);
        var place = keys.required("place").flatMap(places::read);
        var shared = keys.optional("batches").map(FactorReader::batchNames).orElse(List.of());
        var reader = new FactorReader(taken, places.names(), shared);
        var read = keys.required("factors").map(reader::read).orElse(List.of());
        var batches = keys.optional("batches").map(reader::batches).orElse(List.of());
        var factors = reader.givenByBatch(read, batches);
        var treatments = new TreatmentReader(reader.levels());
        var control = keys.optional("control").flatMap(treatments::read);
        var never = keys.optional("never").map(treatments::never).orElse(List.of());
        int line = keys.optional("never").map(PlanValue::keyLine).orElse(0);
        TreatmentReader.check(factors, never, line, problems);
        return new Varied(places.names(), place, factors, batches, control.orElse(new Treatment(Map.of())), never);
    }

    private Counted counted() {
        var reader = new OutcomeReader();
        var outcomes = keys.required("outcomes").map(reader::read).orElse(List.of());
        var counting = keys.required("counting").flatMap(v -> CountingReader.read(v, reader.counts()));
        counting.ifPresent(c -> reader.checkDays(c.days()));
        var definitions = keys.optional("definitions").map(v -> OutcomeReader.definitions(v, reader.names()));
        return new Counted(counting, outcomes, definitions.orElse(Map.of()));
    }
}
