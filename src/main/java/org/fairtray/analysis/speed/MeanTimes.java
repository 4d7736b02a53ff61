package org.fairtray.analysis.speed;

import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.design.Structure;
import org.fairtray.statistics.time.DayCounts;
import org.fairtray.trial.Tray;

/**
 * How fast those that came out of each tray did so: their mean time, each half way between the reading that found it and
 * the one before. One number a tray, so that a test of it counts trays, or the units they stand in, and not seeds.
 *
 * @param structure of the trays of which anything came out
 * @param days one mean time for each of them
 * @param none the trays of which nothing came out, which have no speed
 * @param leastVariance what a tray's mean would vary by if its seeds' own times were all that varies, averaged over trays;
 *     days squared, 0 where no tray tells
 */
public record MeanTimes(Structure structure, double[] days, List<Tray> none, double leastVariance) {

    /** The mean times of trays, of one of which at least something came out. */
    public static MeanTimes of(Courses courses) {
        var trays = courses.structure().trays();
        var some = IntStream.range(0, trays.size())
                .filter(i -> courses.counts().get(i).germinated() > 0)
                .boxed()
                .toList();
        var none = IntStream.range(0, trays.size())
                .filter(i -> courses.counts().get(i).germinated() == 0)
                .mapToObj(trays::get)
                .toList();
        var structure = none.isEmpty()
                ? courses.structure()
                : Structure.of(
                        courses.structure().trial(),
                        some.stream().map(trays::get).toList());
        double[] days =
                some.stream().mapToDouble(i -> mean(courses.counts().get(i))).toArray();
        double least = some.stream()
                .map(courses.counts()::get)
                .filter(c -> c.germinated() > 1)
                .mapToDouble(c -> varianceOfMean(c))
                .average()
                .orElse(0);
        return new MeanTimes(structure, days, none, least);
    }

    private static double varianceOfMean(DayCounts tray) {
        double mean = mean(tray);
        double sum = 0;
        for (int i = 0; i < tray.size(); i++) {
            double apart = middle(tray, i) - mean;
            sum += tray.events().get(i) * apart * apart;
        }
        return sum / (tray.germinated() - 1) / tray.germinated();
    }

    private static double mean(DayCounts tray) {
        double sum = 0;
        for (int i = 0; i < tray.size(); i++) {
            sum += tray.events().get(i) * middle(tray, i);
        }
        return sum / tray.germinated();
    }

    private static double middle(DayCounts tray, int i) {
        return (tray.before(i) + tray.days().get(i)) / 2;
    }
}
