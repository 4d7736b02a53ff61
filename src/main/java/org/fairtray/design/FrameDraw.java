package org.fairtray.design;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.commons.rng.UniformRandomProvider;
import org.fairtray.trial.Area;
import org.fairtray.trial.Counting;
import org.fairtray.trial.FrameSpot;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/**
 * Where counting frames lie in each tray: on whole and half centimetres, clear of the margin, none over another. Each set
 * of places that is allowed is as likely as any other: sets are drawn until one is. Where frames nearly fill the tray that
 * would take too long; then they begin in rows, and are moved one by one to free places drawn at random, many times over.
 */
public final class FrameDraw {
    private static final int MOST_SETS = 1_000;
    private static final int MOVES_EACH = 1_000;

    private final int frames;
    /** All in half centimetres. */
    private final int across;

    private final int deep;
    private final int margin;
    private final int placesAcross;
    private final int placesDeep;

    private FrameDraw(Counting counting, Area tray, Area frame) {
        this.frames = counting.framesPerTray();
        this.across = halves(frame.across());
        this.deep = halves(frame.deep());
        this.margin = halves(counting.margin());
        this.placesAcross = halves(tray.across()) - 2 * margin - across + 1;
        this.placesDeep = halves(tray.deep()) - 2 * margin - deep + 1;
    }

    private static int halves(double cm) {
        return (int) Math.round(2 * cm);
    }

    /**
     * The frames of all trays, by tray and from left to right; none where the plan gives frames no size.
     *
     * @param seed that of the layout; frames have a stream of their own, so they change no layout
     * @throws DoesNotFitException if a tray has no room for its frames
     */
    public static List<FrameSpot> of(Trial trial, Layout layout, long seed) {
        var counting = trial.counting();
        if (counting.frame().isEmpty()) {
            return List.of();
        }
        if (counting.framesThatFit() < counting.framesPerTray()) {
            throw new DoesNotFitException(List.of("A tray has room for " + counting.framesThatFit()
                    + " counting frames, and the plan asks for " + counting.framesPerTray() + "."));
        }
        var draw = new FrameDraw(
                counting, counting.tray().orElseThrow(), counting.frame().get());
        var random = Generator.of(seed, Generator.FRAMES);
        var spots = new ArrayList<FrameSpot>();
        for (var tray : layout.trays()) {
            int number = 0;
            for (int[] corner : draw.corners(random)) {
                spots.add(new FrameSpot(tray.code(), ++number, corner[0] / 2.0, corner[1] / 2.0));
            }
        }
        return List.copyOf(spots);
    }

    private List<int[]> corners(UniformRandomProvider random) {
        var corners = IntStream.range(0, MOST_SETS)
                .mapToObj(i -> anySet(random))
                .filter(this::apart)
                .findFirst()
                .orElseGet(() -> movedAbout(random));
        return corners.stream()
                .sorted(Comparator.<int[]>comparingInt(c -> c[0]).thenComparingInt(c -> c[1]))
                .toList();
    }

    private List<int[]> anySet(UniformRandomProvider random) {
        return IntStream.range(0, frames).mapToObj(i -> anywhere(random)).toList();
    }

    private int[] anywhere(UniformRandomProvider random) {
        return new int[] {margin + random.nextInt(placesAcross), margin + random.nextInt(placesDeep)};
    }

    private boolean apart(List<int[]> corners) {
        return IntStream.range(0, corners.size()).allMatch(i -> isFree(corners.get(i), corners.subList(0, i)));
    }

    private boolean isFree(int[] corner, List<int[]> others) {
        return others.stream()
                .allMatch(o -> Math.abs(corner[0] - o[0]) >= across || Math.abs(corner[1] - o[1]) >= deep);
    }

    private List<int[]> movedAbout(UniformRandomProvider random) {
        int inRow = (placesAcross - 1) / across + 1;
        var corners = new ArrayList<int[]>();
        for (int i = 0; i < frames; i++) {
            corners.add(new int[] {margin + i % inRow * across, margin + i / inRow * deep});
        }
        for (int i = 0; i < MOVES_EACH * frames; i++) {
            var moved = corners.remove(random.nextInt(corners.size()));
            var place = anywhere(random);
            corners.add(isFree(place, corners) ? place : moved);
        }
        return corners;
    }
}
