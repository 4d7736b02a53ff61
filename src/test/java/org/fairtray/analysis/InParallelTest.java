package org.fairtray.analysis;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class InParallelTest {
    private static final List<Integer> THINGS = IntStream.range(0, 50).boxed().toList();

    @Test
    void resultsKeepTheOrderOfThings() {
        assertEquals(IntStream.range(0, 50).map(i -> i * i).boxed().toList(), InParallel.each(THINGS, i -> i * i));
    }

    @Test
    void whatGoesWrongIsThrownAsItIs() {
        var wrong = assertThrows(
                IllegalArgumentException.class,
                () -> InParallel.each(THINGS, i -> {
                    throw new IllegalArgumentException("thing " + i);
                }));
        assertEquals("thing 0", wrong.getMessage());
    }

    @Test
    void interruptedItStopsAndTheThreadStillKnows() {
        Thread.currentThread().interrupt();
        assertThrows(CancellationException.class, () -> InParallel.each(THINGS, i -> i));
        assertTrue(Thread.interrupted());
    }
}
