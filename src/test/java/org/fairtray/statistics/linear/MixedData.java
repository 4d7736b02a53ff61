package org.fairtray.statistics.linear;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.statistics.Grouping;
import org.fairtray.statistics.ModelMatrix;

/** Data with factors and groupings, as a table of labels beside this class. */
record MixedData(List<String> names, List<String[]> rows) {

    /** Reads NAME.csv: a comment, the names of the columns, then one line for each value. */
    static MixedData of(String name) {
        try (InputStream in = MixedData.class.getResourceAsStream(name + ".csv")) {
            var lines = new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.startsWith("#"))
                    .toList();
            return new MixedData(
                    List.of(lines.get(0).split(",", -1)),
                    lines.stream().skip(1).map(line -> line.split(",", -1)).toList());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    List<String> labels(String name) {
        int column = names.indexOf(name);
        return rows.stream().map(row -> row[column]).toList();
    }

    double[] numbers(String name) {
        return labels(name).stream().mapToDouble(Double::parseDouble).toArray();
    }

    double[] values() {
        return numbers("value");
    }

    List<Grouping> groupings(List<String> names) {
        return names.stream().map(name -> Grouping.by(labels(name))).toList();
    }

    /** A base and terms in treatment coding against the level first in order; a term is factors joined by colons. */
    ModelMatrix model(List<String> terms) {
        var ones = new double[rows.size()];
        Arrays.fill(ones, 1);
        var columns = new ArrayList<ModelMatrix.Column>();
        columns.add(new ModelMatrix.Column("base", ones));
        terms.forEach(term -> coded(term).forEach(c -> columns.add(new ModelMatrix.Column(term, c))));
        return ModelMatrix.of(columns);
    }

    private List<double[]> coded(String term) {
        var ones = new double[rows.size()];
        Arrays.fill(ones, 1);
        List<double[]> coded = List.of(ones);
        for (String factor : term.split(":", -1)) {
            coded = coded.stream()
                    .flatMap(c -> indicators(factor).stream().map(d -> product(c, d)))
                    .toList();
        }
        return coded;
    }

    private List<double[]> indicators(String factor) {
        var labels = labels(factor);
        return labels.stream()
                .distinct()
                .sorted()
                .skip(1)
                .map(level -> labels.stream()
                        .mapToDouble(l -> l.equals(level) ? 1 : 0)
                        .toArray())
                .toList();
    }

    private static double[] product(double[] a, double[] b) {
        return IntStream.range(0, a.length).mapToDouble(i -> a[i] * b[i]).toArray();
    }

    /** The numbers of a term's columns, which carry its name. */
    static List<Integer> columns(ModelMatrix model, String term) {
        return IntStream.range(0, model.width())
                .filter(j -> model.names().get(j).equals(term))
                .boxed()
                .toList();
    }

    /** The numbers of the columns of all terms that contain a term. */
    static List<Integer> containing(ModelMatrix model, String term) {
        var factors = List.of(term.split(":", -1));
        return IntStream.range(0, model.width())
                .filter(j -> !model.names().get(j).equals(term)
                        && List.of(model.names().get(j).split(":", -1)).containsAll(factors))
                .boxed()
                .toList();
    }
}
