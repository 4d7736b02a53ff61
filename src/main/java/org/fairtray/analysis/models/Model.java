package org.fairtray.analysis.models;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.ModelMatrix;
import org.fairtray.trial.Stand;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * A regression on fixed blocks and terms in treatment coding: each level against the control, named {@code (base)},
 * {@code block=2}, {@code soak=8}, {@code soak=8 × mat=coir}.
 */
public final class Model {
    private final List<Indicator> indicators;
    private final ModelMatrix matrix;
    private final List<Map<String, String>> blocks;

    /** A column: 1 for the cells that have all these levels and lie in this unit, if one is named. */
    private record Indicator(String name, Optional<Term> term, Treatment levels, Optional<Cells.Unit> unit) {
        double of(Cell cell) {
            return cell.treatment().includes(levels) ? Cells.liesIn(cell.blocks(), unit) : 0;
        }
    }

    private Model(List<Indicator> indicators, ModelMatrix matrix, List<Map<String, String>> blocks) {
        this.indicators = indicators;
        this.matrix = matrix;
        this.blocks = blocks;
    }

    /** The model of fixed blocks and some terms for the trays of a structure. */
    public static Model of(Cells cells, List<Term> terms) {
        var structure = cells.structure();
        var blocks = structure.fixedBlocks().stream()
                .flatMap(level -> blockIndicators(structure, level).stream())
                .toList();
        return of(cells, blocks, terms, cells.blocks());
    }

    /** The model of some terms alone, where place enters at random. */
    public static Model withoutBlocks(Cells cells, List<Term> terms) {
        return of(cells, List.of(), terms, List.of(Map.of()));
    }

    private static Model of(
            Cells cells, List<Indicator> blockIndicators, List<Term> terms, List<Map<String, String>> blocks) {
        var indicators = new ArrayList<Indicator>();
        indicators.add(new Indicator("(base)", Optional.empty(), new Treatment(Map.of()), Optional.empty()));
        indicators.addAll(blockIndicators);
        for (Term term : terms) {
            indicators.addAll(termIndicators(cells.structure().trial(), term));
        }
        var matrix = ModelMatrix.of(indicators.stream()
                .map(i -> new ModelMatrix.Column(i.name(), cells.column(i.levels(), i.unit())))
                .toList());
        return new Model(indicators, matrix, blocks);
    }

    /** A column for each unit but the first; units that their own number tells apart are named by that alone. */
    private static List<Indicator> blockIndicators(Structure structure, String level) {
        var place = structure.trial().place();
        int own = place.names().indexOf(level);
        Map<List<Integer>, String> units = new TreeMap<>(Stand.WALK);
        var numbers = new HashMap<Integer, Boolean>();
        for (Tray tray : structure.trays()) {
            var key = place.key(level).stream().map(tray.stand().at()::get).toList();
            units.put(key, place.unit(level, tray.stand()));
            numbers.put(tray.stand().at().get(own), true);
        }
        boolean ownNumberTells = numbers.size() == units.size();
        return units.entrySet().stream()
                .skip(1)
                .map(u -> new Indicator(
                        level + "="
                                + (ownNumberTells ? u.getKey().get(u.getKey().size() - 1) : u.getValue()),
                        Optional.empty(),
                        new Treatment(Map.of()),
                        Optional.of(new Cells.Unit(level, u.getValue()))))
                .toList();
    }

    /** The first factor's levels change fastest, as the products of columns are usually listed. */
    private static List<Indicator> termIndicators(Trial trial, Term term) {
        List<Treatment> products = List.of(new Treatment(Map.of()));
        for (int i = term.factors().size() - 1; i >= 0; i--) {
            var factor = trial.factor(term.factors().get(i));
            var longer = new ArrayList<Treatment>();
            for (var rest : products) {
                trial.levelsFromControl(factor).stream()
                        .skip(1)
                        .forEach(l -> longer.add(new Treatment(Map.of(factor.name(), l)).with(rest)));
            }
            products = longer;
        }
        return products.stream()
                .map(p -> new Indicator(name(p), Optional.of(term), p, Optional.empty()))
                .toList();
    }

    private static String name(Treatment levels) {
        return levels.levels().entrySet().stream()
                .map(e -> e.getKey() + "=" + e.getValue())
                .collect(Collectors.joining(" × "));
    }

    public ModelMatrix matrix() {
        return matrix;
    }

    /** The numbers, among the columns kept, of those of some terms. */
    List<Integer> columns(Predicate<Term> of) {
        var names = indicators.stream()
                .filter(i -> i.term().filter(of).isPresent())
                .map(Indicator::name)
                .toList();
        var kept = matrix.names();
        return IntStream.range(0, kept.size())
                .filter(j -> names.contains(kept.get(j)))
                .boxed()
                .toList();
    }

    /** Whether each column of {@link #row} belongs to no term of a factor. */
    BitSet withoutFactor(String factor) {
        var without = new BitSet();
        for (int j = 0; j < indicators.size(); j++) {
            var term = indicators.get(j).term();
            without.set(j, term.isEmpty() || !term.get().factors().contains(factor));
        }
        return without;
    }

    /** The blocks that some tray stands in. */
    public List<Map<String, String>> blocks() {
        return blocks;
    }

    /** The row that describes a cell, with an entry for every column, redundant ones too. */
    public double[] row(Cell cell) {
        return indicators.stream().mapToDouble(i -> i.of(cell)).toArray();
    }
}
