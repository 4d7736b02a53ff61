package org.fairtray.analysis.soundness;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.analysis.data.OutcomeData;
import org.fairtray.design.Structure;
import org.fairtray.findings.DataCheck;

/**
 * Every look at whether the data of an outcome are sound. What was looked at is told even where nothing stands out; a
 * look that these data don't allow says so, or is left out where it means nothing. No tray is ever dropped.
 */
public final class Soundness {
    /** The error rate of each look: with half a dozen of them about 1 sound trial in 20 has something stand out. */
    static final double LEVEL = 0.01;

    private Soundness() {}

    /**
     * The looks at a count.
     *
     * @param structure of the trays read
     * @param data a count for each of them
     * @param rates what the model fits to each, in (0, 1)
     * @param counters who counted, by tray; empty where nobody is named
     */
    public static List<DataCheck> ofCounts(
            Structure structure, OutcomeData data, double[] rates, Map<String, ? extends Collection<String>> counters) {
        var rest = Leftovers.ofCounts(structure, data.counts(), rates);
        return Stream.of(
                        Optional.of(ReplicateCheck.of(structure, data.counts())),
                        Optional.of(OutlierCheck.ofCounts(rest, data.counts())),
                        Optional.of(TrendCheck.of(rest)),
                        Optional.of(NeighbourCheck.of(rest)),
                        Optional.of(DispersionCheck.of(rest, data.counts(), rates)),
                        CounterCheck.of(rest, counters))
                .flatMap(Optional::stream)
                .toList();
    }

    /**
     * The looks at a measure: nothing is known of how much its trays should differ, so replicates and dispersion are
     * left out.
     *
     * @param structure of the trays read
     * @param data a value for each of them
     * @param counters who measured, by tray; empty where nobody is named
     */
    public static List<DataCheck> ofMeasures(
            Structure structure, OutcomeData data, Map<String, ? extends Collection<String>> counters) {
        var rest = Leftovers.ofMeasures(structure, data.raw());
        return Stream.of(
                        Optional.of(OutlierCheck.ofMeasures(rest)),
                        Optional.of(TrendCheck.of(rest)),
                        Optional.of(NeighbourCheck.of(rest)),
                        CounterCheck.of(rest, counters))
                .flatMap(Optional::stream)
                .toList();
    }
}
