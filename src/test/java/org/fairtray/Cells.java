package org.fairtray;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Grouping;
import org.junit.jupiter.params.converter.SimpleArgumentConverter;
import org.junit.jupiter.params.converter.TypedArgumentConverter;

/** Cells of reference tables that hold more than one number. */
public final class Cells {
    private Cells() {}

    private static List<String> words(String cell) {
        var words = new ArrayList<String>();
        for (String word : cell.trim().split("\\s+", -1)) {
            if (!word.isEmpty()) {
                words.add(word);
            }
        }
        return words;
    }

    private static double[] numbers(String cell) {
        return words(cell).stream().mapToDouble(Double::parseDouble).toArray();
    }

    /** Numbers with spaces between. */
    public static final class Doubles extends TypedArgumentConverter<String, double[]> {
        Doubles() {
            super(String.class, double[].class);
        }

        @Override
        protected double[] convert(String cell) {
            return numbers(cell);
        }
    }

    /** Rows of numbers with bars between. */
    public static final class Rows extends TypedArgumentConverter<String, double[][]> {
        Rows() {
            super(String.class, double[][].class);
        }

        @Override
        protected double[][] convert(String cell) {
            return Arrays.stream(cell.split("\\|", -1)).map(Cells::numbers).toArray(double[][]::new);
        }
    }

    /** Labels with spaces between. */
    public static final class Labels extends SimpleArgumentConverter {
        @Override
        protected Object convert(Object cell, Class<?> list) {
            return words((String) cell);
        }
    }

    /** Groupings by their labels, with bars between. */
    public static final class Groupings extends SimpleArgumentConverter {
        @Override
        protected Object convert(Object cell, Class<?> list) {
            return Arrays.stream(((String) cell).split("\\|", -1))
                    .map(labels -> Grouping.by(words(labels)))
                    .toList();
        }
    }

    /** Counts such as 2/50 with spaces between. */
    public static final class Counts extends SimpleArgumentConverter {
        @Override
        protected Object convert(Object cell, Class<?> list) {
            return words((String) cell).stream()
                    .map(word -> {
                        int slash = word.indexOf('/');
                        return new Count(
                                Long.parseLong(word.substring(0, slash)), Long.parseLong(word.substring(slash + 1)));
                    })
                    .toList();
        }
    }
}
