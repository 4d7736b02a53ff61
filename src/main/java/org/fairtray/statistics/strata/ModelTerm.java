package org.fairtray.statistics.strata;

import java.util.List;
import java.util.Set;
import org.fairtray.statistics.Grouping;

/**
 * A term of a model: a main effect or an interaction.
 *
 * @param factors the factors it combines; a term contains another when it has all its factors
 * @param cells which combination of their levels each thing gets
 * @param nominalDf the degrees of freedom it has when every combination is made: the product of (levels - 1)
 */
public record ModelTerm(Set<String> factors, Grouping cells, int nominalDf) {

    public ModelTerm {
        factors = Set.copyOf(factors);
    }

    /** Whether this term combines all the factors of the other. */
    public boolean contains(ModelTerm other) {
        return factors.containsAll(other.factors);
    }

    /** One column of 0s and 1s for each combination. */
    public List<double[]> columns() {
        return cells.indicators();
    }
}
