package org.fairtray.network;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Spliterator;
import java.util.Spliterators;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Deposit;
import org.fairtray.archive.Kept;
import org.fairtray.files.ProblemsException;
import org.fairtray.packs.PackFile;

/** Packs on their way into an archive. A bad one keeps no other out. */
public final class Arrivals {
    private final Archive archive;
    private final boolean bringBack;
    private final Told told;
    private final Map<Kept, Integer> counts = new EnumMap<>(Kept.class);
    private int refused;
    private int read;

    /** Who hears of them; always in the same thread. */
    public interface Told {
        /** So many of the packs were read. */
        void read(int number);

        /** One is not taken, and why. */
        void refused(ProblemsException why);
    }

    /** What came of them. */
    public record Summary(int added, int there, int withdrawn, int refused) {}

    /** A pack that was read: to be added, known already, or refused. */
    private record Arrival(Optional<Deposit> fresh, Optional<Kept> known, Optional<ProblemsException> refusal) {}

    private Arrivals(Archive archive, boolean bringBack, Told told) {
        this.archive = archive;
        this.bringBack = bringBack;
        this.told = told;
    }

    /**
     * Adds packs.
     *
     * @param bringBack whether those that were withdrawn are added again
     */
    public static Summary add(Archive archive, List<Path> packs, boolean bringBack, Told told) {
        return new Arrivals(archive, bringBack, told).add(packs);
    }

    private Summary add(List<Path> packs) {
        try (var arrivals = new Ahead<>(packs.iterator(), this::arrival)) {
            var fresh = StreamSupport.stream(Spliterators.spliteratorUnknownSize(arrivals, Spliterator.ORDERED), false)
                    .flatMap(this::fresh);
            archive.addAll(fresh, bringBack, (trial, kept) -> count(kept));
        }
        return new Summary(
                counts.getOrDefault(Kept.ADDED, 0),
                counts.getOrDefault(Kept.THERE, 0),
                counts.getOrDefault(Kept.WITHDRAWN, 0),
                refused);
    }

    /** What is there already isn't worked out again: that is what takes long. */
    private Arrival arrival(Path file) {
        try {
            var zip = PackFile.load(file);
            var pack = PackFile.read(file.toString(), zip);
            var known = archive.known(pack.id()).filter(k -> k != Kept.WITHDRAWN || !bringBack);
            return known.isPresent()
                    ? new Arrival(Optional.empty(), known, Optional.empty())
                    : new Arrival(
                            Optional.of(Depositing.of(file.toString(), pack, zip)), Optional.empty(), Optional.empty());
        } catch (ProblemsException e) {
            return new Arrival(Optional.empty(), Optional.empty(), Optional.of(e));
        }
    }

    private Stream<Deposit> fresh(Arrival arrival) {
        read++;
        told.read(read);
        arrival.known().ifPresent(this::count);
        arrival.refusal().ifPresent(why -> {
            refused++;
            told.refused(why);
        });
        return arrival.fresh().stream();
    }

    private void count(Kept kept) {
        counts.merge(kept, 1, Integer::sum);
    }
}
