package org.fairtray.analysis.soundness;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.findings.DataCheck;
import org.fairtray.findings.Words;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.comparisons.Holm;
import org.fairtray.statistics.residuals.StratumResiduals;

/**
 * Whether what is left over rises or falls along the numbers of a place level, such as from the bottom of the stacks to
 * the top: a straight line within the units outside, tested in the level's own stratum; Holm's adjustment over levels.
 * Levels that the model takes as blocks are passed by, since it allows for them whatever their order.
 */
final class TrendCheck {
    private static final String KIND = "place trend";

    private TrendCheck() {}

    private record Line(String level, StratumResiduals.Added test) {}

    static DataCheck of(Leftovers rest) {
        var lines = rest.structure().trial().place().names().stream()
                .filter(l -> !rest.structure().trial().moves(l))
                .flatMap(l -> line(rest, l).stream())
                .toList();
        if (lines.isEmpty()) {
            return DataCheck.notMade(
                    KIND, "No place level has three places or more and trays to spare, so trends can't be looked for.");
        }
        double[] adjusted =
                Holm.adjust(lines.stream().mapToDouble(l -> l.test().p()).toArray());
        int first = IntStream.range(0, adjusted.length)
                .boxed()
                .min(Comparator.comparingDouble(i -> lines.get(i).test().p()))
                .orElseThrow();
        double f = lines.get(first).test().f();
        double p = adjusted[first];
        var steep = IntStream.range(0, adjusted.length)
                .filter(i -> adjusted[i] < Soundness.LEVEL)
                .mapToObj(i -> lines.get(i).level())
                .toList();
        if (steep.isEmpty()) {
            var levels = lines.stream().map(Line::level).toList();
            return DataCheck.sound(
                    KIND,
                    "f",
                    f,
                    p,
                    "Nothing rises or falls along " + String.join(" or ", levels) + " beyond the model.");
        }
        return new DataCheck(
                KIND,
                false,
                List.of(),
                "f",
                f,
                p,
                "Trays rise or fall along the numbers of " + String.join(" and ", steep) + " (" + Words.p(p) + ").",
                "Find what changes along it: light, warmth, weight, water, the order of counting. Next time make it a place"
                        + " level that every treatment meets equally.");
    }

    private static Optional<Line> line(Leftovers rest, String level) {
        var structure = rest.structure();
        double[] numbers = numbers(structure, level);
        var units = structure.units(level);
        var stratum = IntStream.range(0, structure.strata().size())
                .filter(s -> same(structure.strata().grouping(s), units))
                .findFirst();
        boolean few = IntStream.range(0, numbers.length)
                        .mapToDouble(i -> numbers[i])
                        .distinct()
                        .count()
                < 3;
        if (few || stratum.isEmpty() || isBlock(structure, level)) {
            return Optional.empty();
        }
        List<double[]> column = new ArrayList<>();
        column.add(numbers);
        return rest.between(stratum.getAsInt()).added(column).map(t -> new Line(level, t));
    }

    private static double[] numbers(Structure structure, String level) {
        int own = structure.trial().place().names().indexOf(level);
        return structure.trays().stream()
                .mapToDouble(t -> t.stand().at().get(own))
                .toArray();
    }

    private static boolean same(Grouping one, Grouping other) {
        return one.groups() == other.groups() && one.finerThan(other);
    }

    private static boolean isBlock(Structure structure, String level) {
        return structure.fixedBlocks().stream()
                .anyMatch(b -> b.equals(level) || structure.trial().place().contains(level, b));
    }
}
