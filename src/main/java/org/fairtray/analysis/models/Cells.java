package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Structure;
import org.fairtray.statistics.Grouping;
import org.fairtray.trial.Treatment;

/**
 * The treatment and the block of each tray, told once for all models of an outcome: trays are many, treatments and
 * blocks are few.
 */
public final class Cells {
    private final Structure structure;
    private final List<Treatment> treatments;
    private final List<Map<String, String>> blocks;
    private final int[] treatmentOf;
    private final int[] blockOf;

    /** A unit of a place level. */
    public record Unit(String level, String name) {}

    private Cells(Structure structure, List<Treatment> treatmentOfEach, List<Map<String, String>> blockOfEach) {
        this.structure = structure;
        this.treatments = treatmentOfEach.stream().distinct().toList();
        this.blocks = blockOfEach.stream().distinct().toList();
        this.treatmentOf = Grouping.by(treatmentOfEach).of();
        this.blockOf = Grouping.by(blockOfEach).of();
    }

    public static Cells of(Structure structure) {
        var blocks = new ArrayList<Map<String, String>>();
        for (var tray : structure.trays()) {
            var units = new LinkedHashMap<String, String>();
            structure
                    .fixedBlocks()
                    .forEach(l -> units.put(l, structure.trial().place().unit(l, tray.stand())));
            blocks.add(units);
        }
        return new Cells(
                structure, structure.trays().stream().map(t -> t.treatment()).toList(), blocks);
    }

    public Structure structure() {
        return structure;
    }

    /** The blocks that some tray stands in. */
    public List<Map<String, String>> blocks() {
        return blocks;
    }

    /** A column with 1 for the trays that have all these levels and stand in this unit, if one is named. */
    public double[] column(Treatment levels, Optional<Unit> unit) {
        double[] byTreatment =
                treatments.stream().mapToDouble(t -> t.includes(levels) ? 1 : 0).toArray();
        double[] byBlock = blocks.stream().mapToDouble(b -> liesIn(b, unit)).toArray();
        var column = new double[treatmentOf.length];
        for (int i = 0; i < column.length; i++) {
            column[i] = byTreatment[treatmentOf[i]] * byBlock[blockOf[i]];
        }
        return column;
    }

    /** 1 where a block lies in a unit, or none is named; else 0. */
    public static double liesIn(Map<String, String> block, Optional<Unit> unit) {
        return unit.isEmpty() || unit.get().name().equals(block.get(unit.get().level())) ? 1 : 0;
    }
}
