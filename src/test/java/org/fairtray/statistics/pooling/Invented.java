package org.fairtray.statistics.pooling;

import java.util.List;
import java.util.Random;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.IntStream;

/** Studies from arrays and from seeds. */
final class Invented {
    private Invented() {}

    static List<Study> studies(double[] estimates, double[] variances) {
        return IntStream.range(0, estimates.length)
                .mapToObj(i -> new Study(estimates[i], variances[i]))
                .toList();
    }

    /** Variances about 0.1, a hundred times apart and more; studies differ by 0.5 where the seed is even. */
    static List<Study> studies(int count, long seed) {
        var random = new Random(seed);
        return IntStream.range(0, count)
                .mapToObj(i -> {
                    double variance = 0.1 * Math.exp(1.5 * random.nextGaussian());
                    double between = seed % 2 == 0 ? 0.5 * random.nextGaussian() : 0;
                    return new Study(0.3 + between + Math.sqrt(variance) * random.nextGaussian(), variance);
                })
                .toList();
    }

    static List<Study> changed(List<Study> studies, DoubleUnaryOperator estimate, double timesVariance) {
        return studies.stream()
                .map(s -> new Study(estimate.applyAsDouble(s.estimate()), s.variance() * timesVariance))
                .toList();
    }
}
