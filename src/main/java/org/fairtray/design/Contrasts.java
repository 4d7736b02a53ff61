package org.fairtray.design;

import java.util.Map;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** The columns of terms: products of each factor's orthogonal contrasts, whose squares have a mean of 1 over its levels. */
final class Contrasts {
    private Contrasts() {}

    /** How many columns a term has. */
    static int number(Trial trial, Term term) {
        return term.factors().stream()
                .mapToInt(f -> trial.factor(f).levels().size() - 1)
                .reduce(1, Math::multiplyExact);
    }

    /** A treatment's row in the columns of a term; the treatment names every factor of it. */
    static double[] row(Trial trial, Term term, Treatment treatment) {
        double[] row = {1};
        for (String name : term.factors()) {
            var factor = trial.factor(name);
            double[] own = row(factor, treatment.levels());
            var longer = new double[row.length * own.length];
            for (int i = 0; i < longer.length; i++) {
                longer[i] = row[i / own.length] * own[i % own.length];
            }
            row = longer;
        }
        return row;
    }

    /** Helmert's contrasts: each level after the first against those before it. */
    private static double[] row(Factor factor, Map<String, String> levels) {
        int number = factor.levels().size();
        int level = factor.levels().indexOf(levels.get(factor.name()));
        var row = new double[number - 1];
        for (int c = Math.max(0, level - 1); c < row.length; c++) {
            double scale = Math.sqrt((double) number / ((c + 1.0) * (c + 2)));
            row[c] = level == c + 1 ? -(c + 1) * scale : scale;
        }
        return row;
    }
}
