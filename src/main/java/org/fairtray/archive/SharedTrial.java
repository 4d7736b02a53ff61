package org.fairtray.archive;

import java.util.List;
import java.util.Optional;

/**
 * What is known of a shared trial without opening its pack.
 *
 * @param id the hash of all that the pack holds, 64 letters from 0 to 9 and a to f
 * @param trialId the hash of plan and layout: two packs with the same one are of the same trial
 * @param outcome the first outcome
 * @param sealed whether plan and layout are those that were drawn
 * @param version the version of the program that made the pack
 * @param protocol the SHA-256 of plan.yaml
 * @param farm the code that the farm goes by, where it gave one
 * @param conditions what was the same for all trays, such as the medium
 */
public record SharedTrial(
        String id,
        String trialId,
        String title,
        String crop,
        String question,
        int trays,
        String outcome,
        boolean sealed,
        String version,
        String protocol,
        Optional<String> farm,
        List<Varied> factors,
        List<Condition> conditions) {

    /** @throws IllegalArgumentException if an id isn't one */
    public SharedTrial {
        if (!Id.isWhole(id)) {
            throw new IllegalArgumentException(
                    "an id of " + id.length() + " letters: expected 64 from 0 to 9 and a to f");
        }
        trialId = Words.storable(trialId);
        title = Words.storable(title);
        crop = Words.storable(crop);
        question = Words.storable(question);
        outcome = Words.storable(outcome);
        version = Words.storable(version);
        protocol = Words.storable(protocol);
        farm = farm.map(Words::storable);
        factors = List.copyOf(factors);
        conditions = List.copyOf(conditions);
    }

    /** The same trial with factors and conditions. */
    SharedTrial with(List<Varied> itsFactors, List<Condition> itsConditions) {
        return new SharedTrial(
                id,
                trialId,
                title,
                crop,
                question,
                trays,
                outcome,
                sealed,
                version,
                protocol,
                farm,
                itsFactors,
                itsConditions);
    }

    /** A factor and its levels, in the plan's order. */
    public record Varied(String name, Optional<String> unit, List<String> levels) {
        public Varied {
            name = Words.storable(name);
            unit = unit.map(Words::storable);
            levels = levels.stream().map(Words::storable).toList();
        }
    }

    /** Something that was the same for all trays. */
    public record Condition(String name, String value) {
        public Condition {
            name = Words.storable(name);
            value = Words.storable(value);
        }
    }
}
