package org.fairtray.bench;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.fairtray.journal.NotKeptException;

/** A program that counts until it is killed or the disk is full, and prints the id of each count that is kept. */
final class EndlessCounting {
    private static final int MOST = 100_000;

    private EndlessCounting() {}

    /** Runs in the folder of a trial that is laid out. */
    public static void main(String[] args) {
        var trials = new Trials(Path.of(args[0]), Clock.system(ZoneId.systemDefault()));
        var bench = trials.all().values().iterator().next().bench();
        var trays = bench.sheet().trays();
        for (int i = 0; i < MOST; i++) {
            var tray = trays.get(i % trays.size()).tray();
            long seen = bench.counts(0).last();
            var offer = new Offer(
                    args[1] + "-count-" + i,
                    tray,
                    1,
                    1,
                    seen,
                    Map.of("germinated", String.valueOf(i % 50)),
                    "note " + i,
                    null,
                    null,
                    null,
                    false);
            try {
                var result = bench.count(List.of(offer), "Ada").get(0);
                System.out.println(result.status() + " " + result.id());
            } catch (NotKeptException e) {
                System.out.println("not kept " + offer.id());
                return;
            }
            System.out.flush();
        }
    }
}
