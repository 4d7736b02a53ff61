package org.fairtray.trial;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/**
 * Which names of several growers' trials mean the same. A name that it leaves out means what it says.
 *
 * @param factors the common name by a trial's own name of a factor
 * @param levels the common level by a trial's own, by common name of the factor or condition
 * @param outcomes the common name by a trial's own name of an outcome
 * @param conditions the common name by a trial's own name of a condition
 * @param units the unit to speak of, by common name of the factor
 * @param unitWhereNone the unit that is meant where a trial names none, by common name of the factor
 * @param against the level that others are compared with, by common name of the factor
 */
public record CommonNames(
        Map<String, String> factors,
        Map<String, Map<String, String>> levels,
        Map<String, String> outcomes,
        Map<String, String> conditions,
        Map<String, String> units,
        Map<String, String> unitWhereNone,
        Map<String, String> against) {

    /** Every name means what it says. */
    public static final CommonNames NONE =
            new CommonNames(Map.of(), Map.of(), Map.of(), Map.of(), Map.of(), Map.of(), Map.of());

    public CommonNames {
        factors = kept(factors);
        var copies = new LinkedHashMap<String, Map<String, String>>();
        levels.forEach((name, words) -> copies.put(name, kept(words)));
        levels = Collections.unmodifiableMap(copies);
        outcomes = kept(outcomes);
        conditions = kept(conditions);
        units = kept(units);
        unitWhereNone = kept(unitWhereNone);
        against = kept(against);
    }

    private static Map<String, String> kept(Map<String, String> names) {
        return Collections.unmodifiableMap(new LinkedHashMap<>(names));
    }
}
