package org.fairtray.design;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.statistics.Cholesky;
import org.fairtray.statistics.Vectors;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * What a fraction of all combinations can't tell apart: for each main effect and each two-factor interaction the others of
 * them on whose columns one of its columns lies wholly or in part (its squared multiple correlation).
 *
 * <p>Source (from memory): Box and Hunter (1961), Technometrics 3, 311-351 (alias).
 */
final class Confusion {
    private static final double SOME = 0.01;
    private static final double WHOLLY = 1 - 1e-6;

    private final Trial trial;
    private final List<Treatment> given;
    private final List<Term> terms;

    private Confusion(Trial trial, List<String> factors, List<Treatment> given) {
        this.trial = trial;
        this.given = given;
        this.terms = new ArrayList<>();
        factors.forEach(f -> terms.add(new Term(List.of(f))));
        for (int i = 0; i < factors.size(); i++) {
            for (int j = i + 1; j < factors.size(); j++) {
                terms.add(new Term(List.of(factors.get(i), factors.get(j))));
            }
        }
    }

    /** A sentence for each term that is mixed up with others, each pair said once. */
    static List<String> sentences(Trial trial, List<String> factors, List<Treatment> given) {
        return new Confusion(trial, factors, given).sentences();
    }

    private List<String> sentences() {
        var columns = terms.stream().map(this::columns).toList();
        var sentences = new ArrayList<String>();
        Set<Term> said = new HashSet<>();
        for (int i = 0; i < terms.size(); i++) {
            var wholly = new ArrayList<Term>();
            var partly = new ArrayList<Term>();
            for (int j = i + 1; j < terms.size(); j++) {
                double shared = shared(columns.get(i), columns.get(j));
                if (shared > WHOLLY) {
                    wholly.add(terms.get(j));
                } else if (shared > SOME) {
                    partly.add(terms.get(j));
                }
            }
            if (!wholly.isEmpty() && !said.contains(terms.get(i))) {
                sentences.add(words(terms.get(i)) + " can't be told apart from " + list(wholly) + ".");
                said.addAll(wholly);
            }
            if (!partly.isEmpty() && terms.get(i).isMain()) {
                sentences.add(words(terms.get(i)) + " is mixed up in part with " + list(partly) + ".");
            }
        }
        return List.copyOf(sentences);
    }

    private static String list(List<Term> terms) {
        return terms.stream().map(Confusion::words).collect(Collectors.joining(", "));
    }

    private static String words(Term term) {
        return term.isMain() ? term.name() : String.join(" with ", term.factors()) + " acting together";
    }

    /** The columns of a term, their means taken off. */
    private List<double[]> columns(Term term) {
        var rows = given.stream().map(t -> Contrasts.row(trial, term, t)).toList();
        return IntStream.range(0, Contrasts.number(trial, term))
                .mapToObj(c -> centred(rows.stream().mapToDouble(r -> r[c]).toArray()))
                .toList();
    }

    private static double[] centred(double[] column) {
        double mean = Arrays.stream(column).average().orElse(0);
        return Arrays.stream(column).map(x -> x - mean).toArray();
    }

    /** The largest share of a column of one term that the columns of another explain. */
    private static double shared(List<double[]> one, List<double[]> other) {
        var cross = new double[other.size()][other.size()];
        for (int i = 0; i < cross.length; i++) {
            for (int j = 0; j < cross.length; j++) {
                cross[i][j] = Vectors.dot(other.get(i), other.get(j)) + (i == j ? 1e-9 : 0);
            }
        }
        var factor = Cholesky.of(cross);
        double most = 0;
        for (double[] column : one) {
            double length = Vectors.squaredLength(column);
            var products =
                    other.stream().mapToDouble(o -> Vectors.dot(o, column)).toArray();
            if (length > 1e-9 && factor.isPresent()) {
                most = Math.max(most, Vectors.squaredLength(factor.get().forward(products)) / length);
            }
        }
        return most;
    }
}
