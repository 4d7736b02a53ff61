package org.fairtray.analysis.models;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.design.Term;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/** The mixed logistic models of a layout: the terms' columns, and random intercepts for the units of each stratum. */
public final class MixedModels {
    private final Removals<Model> models;
    private final List<Grouping> groupings;

    private MixedModels(Cells cells) {
        var strata = cells.structure().strata();
        this.groupings =
                IntStream.range(0, strata.size()).mapToObj(strata::grouping).toList();
        this.models = new Removals<>(cells.structure().terms(), some -> Model.withoutBlocks(cells, some));
    }

    /**
     * The two models whose likelihoods test a term.
     *
     * @param smaller every term that doesn't contain it
     * @param larger the same and the term
     * @param df how many columns it adds, 1 or more
     */
    public record Pair(ModelMatrix smaller, ModelMatrix larger, int df) {}

    /** The models of a layout. */
    public static MixedModels of(Structure structure) {
        return of(Cells.of(structure));
    }

    static MixedModels of(Cells cells) {
        return new MixedModels(cells);
    }

    /** The units of each stratum, the tray last. */
    public List<Grouping> groupings() {
        return groupings;
    }

    /** The columns of all terms. */
    ModelMatrix all() {
        return models.all().matrix();
    }

    /** The columns of some terms, given in the order of all. */
    ModelMatrix of(List<Term> some) {
        return models.of(some).matrix();
    }

    /** The models that test a term; empty where it adds nothing that can be told apart. */
    public Optional<Pair> pair(Term term) {
        var smaller = models.without(term).matrix();
        var larger = models.with(term).matrix();
        int df = larger.width() - smaller.width();
        return df == 0 ? Optional.empty() : Optional.of(new Pair(smaller, larger, df));
    }
}
