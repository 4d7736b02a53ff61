package org.fairtray.trial;

import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * What belongs to a layout beside who stands where: where frames lie in trays, and how trays change places.
 *
 * @param frames where counting frames lie; none where that isn't known
 * @param moves which tray moves where; none where that isn't known
 */
public record Handling(List<FrameSpot> frames, List<Move> moves) {
    /** Nothing beside the layout. */
    public static final Handling NONE = new Handling(List.of(), List.of());

    public Handling {
        frames = List.copyOf(frames);
        moves = List.copyOf(moves);
    }

    /** The frames of each tray, by number. */
    public Map<String, List<FrameSpot>> framesByTray() {
        return frames.stream().collect(Collectors.groupingBy(FrameSpot::tray));
    }

    /** The days on which trays move, rising. */
    public List<Integer> movingDays() {
        return moves.stream().map(Move::day).distinct().sorted().toList();
    }

    /**
     * The trays as they stand at the end of a day, in their order.
     *
     * @param trays as they stand at sowing
     */
    public List<Tray> on(int day, List<Tray> trays) {
        var last = new HashMap<String, Move>();
        moves.stream()
                .filter(m -> m.day() <= day)
                .sorted(Comparator.comparingInt(Move::day))
                .forEach(m -> last.put(m.tray(), m));
        return trays.stream()
                .map(t -> last.containsKey(t.code()) ? t.at(last.get(t.code()).to()) : t)
                .toList();
    }
}
