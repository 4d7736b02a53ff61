package org.fairtray.design;

import static org.fairtray.Trials.THROUGH;
import static org.fairtray.Trials.factor;
import static org.fairtray.Trials.place;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.Trials;
import org.fairtray.trial.Area;
import org.fairtray.trial.Counting;
import org.fairtray.trial.FrameSpot;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Counting frames lie inside the tray, clear of its margin and of one another, anywhere with the same chance. */
class FrameDrawTest {

    private static List<FrameSpot> frames(int number, Area tray, Area frame, double margin, long seed, int trays) {
        var drawn = Trials.of(place("spot " + trays), List.of(factor("soak", "tray", "0", "8")), THROUGH)
                .counted(new Counting(List.of(1, 3), number, 50, true, Optional.of(tray), Optional.of(frame), margin))
                .drawn(seed);
        return FrameDraw.of(drawn.trial(), drawn.layout(), seed);
    }

    @ParameterizedTest
    @ValueSource(ints = {1, 2, 3, 4, 5, 6, 7, 8})
    void framesNeverOverlapNorReachTheMargin(int number) {
        // 46 by 21 cm inside the margin of 2: at most 4 by 2 frames of 10 by 10.
        var spots = frames(number, new Area(50, 25), new Area(10, 10), 2, number, 20);
        assertEquals(20 * number, spots.size());
        spots.forEach(s -> {
            assertTrue(s.fromLeft() >= 2 && s.fromLeft() + 10 <= 48, s::toString);
            assertTrue(s.fromFront() >= 2 && s.fromFront() + 10 <= 23, s::toString);
            assertEquals(0, s.fromLeft() * 2 % 1);
            assertEquals(0, s.fromFront() * 2 % 1);
        });
        spots.stream().collect(Collectors.groupingBy(FrameSpot::tray)).values().forEach(own -> {
            for (var one : own) {
                for (var other : own) {
                    assertTrue(
                            one.frame() == other.frame()
                                    || Math.abs(one.fromLeft() - other.fromLeft()) >= 10
                                    || Math.abs(one.fromFront() - other.fromFront()) >= 10,
                            () -> one + " " + other);
                }
            }
        });
    }

    @Test
    void oneFrameLiesAnywhereWithTheSameChance() {
        // 3 by 2.5 cm of room for the corner of a 1 by 1 frame in halves: 5 × 4 = 20 places.
        Map<List<Double>, Integer> seen = new HashMap<>();
        frames(1, new Area(5, 4.5), new Area(1, 1), 1, 3, 4000)
                .forEach(s -> seen.merge(List.of(s.fromLeft(), s.fromFront()), 1, Integer::sum));
        Uniformity.assertUniform(seen.values(), 20, 4000);
    }

    @Test
    void twoFramesLieInEachAllowedWayWithTheSameChance() {
        // Corners 0, 0.5 ... 1.5 along one side: pairs 1 cm apart or more are 0-1, 0-1.5, 0.5-1.5.
        Map<List<Double>, Integer> seen = new HashMap<>();
        frames(2, new Area(2.5, 1), new Area(1, 1), 0, 3, 3000).stream()
                .collect(Collectors.groupingBy(FrameSpot::tray))
                .values()
                .forEach(own -> seen.merge(own.stream().map(FrameSpot::fromLeft).toList(), 1, Integer::sum));
        Uniformity.assertUniform(seen.values(), 3, 3000);
    }

    @Test
    void framesThatNearlyFillTheTrayAreFoundByMovingThem() {
        // 7 frames of 8 by 1 cm in a row 60 cm long: hardly any set drawn at once lies apart.
        var spots = frames(7, new Area(60, 1), new Area(8, 1), 0, 5, 2);
        assertEquals(14, spots.size());
        for (int i = 1; i < 7; i++) {
            assertTrue(spots.get(i).fromLeft() - spots.get(i - 1).fromLeft() >= 8);
        }
        assertTrue(spots.get(6).fromLeft() > 48, "they still stand as they were put first");
    }

    @Test
    void theSameSeedGivesTheSameFramesAndTheLayoutThatItGaveWithoutThem() {
        assertEquals(
                frames(3, new Area(50, 25), new Area(10, 10), 2, 9, 4),
                frames(3, new Area(50, 25), new Area(10, 10), 2, 9, 4));
        var plain = Trials.of(place("spot 4"), List.of(factor("soak", "tray", "0", "8")), THROUGH);
        assertEquals(List.of(), FrameDraw.of(plain.trial(), plain.drawn(9).layout(), 9));
    }

    @Test
    void framesWithoutRoomAreRefused() {
        var thrown =
                assertThrows(DoesNotFitException.class, () -> frames(9, new Area(50, 25), new Area(10, 10), 2, 1, 2));
        assertEquals("A tray has room for 8 counting frames, and the plan asks for 9.", thrown.getMessage());
    }
}
