package org.fairtray.files;

import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.ScalarNode;

/** Keys of the plan that belong together, such as those of one factor, with their values. */
final class Keys {
    private final PlanValue owner;
    private final Map<String, PlanValue> values = new LinkedHashMap<>();
    private final Set<String> meant = new HashSet<>();

    private Keys(PlanValue owner) {
        this.owner = owner;
    }

    static Keys of(MappingNode mapping, PlanValue owner) {
        var keys = new Keys(owner);
        for (var tuple : mapping.getValue()) {
            int line = tuple.getKeyNode().getStartMark().map(PlanSyntax::line).orElse(0);
            if (tuple.getKeyNode() instanceof ScalarNode key) {
                keys.add(key.getValue(), new PlanValue(key.getValue(), tuple.getValueNode(), line, owner.problems()));
            } else {
                owner.problems().add(line, "a list or keys in place of a key", "a word");
            }
        }
        return keys;
    }

    private void add(String key, PlanValue value) {
        var before = values.putIfAbsent(key, value);
        if (before != null) {
            owner.problems()
                    .add(
                            value.keyLine(),
                            "key " + Wording.quote(key) + ", which is in line " + before.keyLine() + " already",
                            "each key once");
        }
    }

    /** Reports every key that isn't known. */
    void only(List<String> known) {
        values.forEach((key, value) -> {
            if (!known.contains(key)) {
                owner.problems().unknown(value.keyLine(), "key", key, known);
                Nearest.to(key, known).ifPresent(meant::add);
            }
        });
    }

    /** The value of a key that may be missing. */
    Optional<PlanValue> optional(String key) {
        return Optional.ofNullable(values.get(key));
    }

    /** The value of a key that must be there; one that is there misspelt is reported once, as unknown. */
    Optional<PlanValue> required(String key) {
        if (!values.containsKey(key) && !meant.contains(key)) {
            owner.problems().add(line(), "no key " + Wording.quote(key) + " in " + owner.what(), "a key " + key);
        }
        return optional(key);
    }

    /** Whether some key is nearly one that is known, which has been reported. */
    boolean someMeant() {
        return !meant.isEmpty();
    }

    /** Every key with its value, in the file's order. */
    Map<String, PlanValue> all() {
        return values;
    }

    /** The line that they begin in; 0 for those of the whole plan. */
    int line() {
        return owner.keyLine() == 0 ? 0 : owner.line();
    }
}
