package org.fairtray.findings;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class WordsTest {

    /** Two machines may differ in the last digit of a difference of half a point. */
    @Test
    void halfAPointIsRoundedTheSameOnEitherSideOfIt() {
        double half = 0.035;
        assertEquals(Words.points(half), Words.points(Math.nextDown(half)));
        assertEquals(Words.points(half), Words.points(Math.nextUp(half)));
    }
}
