package org.fairtray.design;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.rng.core.source64.XoShiRo256PlusPlus;
import org.junit.jupiter.api.Test;

class GeneratorTest {

    /** From the authors' C program xoshiro256plusplus.c (public domain, Blackman and Vigna) with state 1, 2, 3, 4. */
    @Test
    void isTheAuthorsGenerator() {
        var generator = new XoShiRo256PlusPlus(1, 2, 3, 4);
        assertEquals(41943041L, generator.nextLong());
        assertEquals(58720359L, generator.nextLong());
        assertEquals(3588806011781223L, generator.nextLong());
        assertEquals(3591011842654386L, generator.nextLong());
    }

    /** A seal rests on these: they must never change. */
    @Test
    void givesTheSameNumbersForASeedForEver() {
        var generator = Generator.of(20260301);
        var numbers = List.of(generator.nextLong(), generator.nextLong(), generator.nextLong());
        assertEquals(List.of(-6209732390776367073L, -789137317351183101L, -4047706197345664648L), numbers);
    }

    @Test
    void shufflesIntoEveryOrderEquallyOften() {
        var generator = Generator.of(1);
        Map<List<Integer>, Integer> seen = new HashMap<>();
        int draws = 24_000;
        for (int i = 0; i < draws; i++) {
            var list = new ArrayList<>(List.of(1, 2, 3, 4));
            Generator.shuffle(list, generator);
            seen.merge(List.copyOf(list), 1, Integer::sum);
        }
        Uniformity.assertUniform(seen.values(), 24, draws);
    }
}
