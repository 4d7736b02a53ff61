package org.fairtray.statistics.logistic;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.stream.IntStream;
import org.fairtray.Cells;
import org.fairtray.statistics.Count;
import org.fairtray.statistics.Models;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.converter.ConvertWith;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

class SeparationTest {

    /** By the definition of Albert and Anderson (1984), Biometrika 71, 1-10: complete, quasi-complete, overlapping. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = ';', textBlock = """
            complete: a line parts them          ; 1 1 | 1 2 | 1 3 | 1 4 ; 0/1 0/1 1/1 1/1 ; 0 1 2 3
            quasi-complete: they meet in a point ; 1 1 | 1 2 | 1 2 | 1 3 ; 0/1 0/1 1/1 1/1 ; 0 3
            overlapping                          ; 1 1 | 1 2 | 1 3 | 1 4 ; 0/1 1/1 0/1 1/1 ;
            one treatment of none                ; 1 0 | 1 0 | 1 1 | 1 1 ; 4/9 5/9 0/9 0/9 ; 2 3
            one treatment of all                 ; 1 0 | 1 0 | 1 1 | 1 1 ; 4/9 5/9 9/9 9/9 ; 2 3
            none here and all there              ; 1 0 | 1 0 | 1 1 | 1 1 ; 0/9 0/9 9/9 9/9 ; 0 1 2 3
            a tray of none beside one of some    ; 1 0 | 1 0 | 1 1 | 1 1 ; 4/9 5/9 0/9 1/9 ;
            nothing anywhere                     ; 1 0 | 1 0 | 1 1 | 1 1 ; 0/9 0/9 0/9 0/9 ; 0 1 2 3
            everything everywhere                ; 1 | 1                 ; 9/9 3/3         ; 0 1
            none and all under one treatment     ; 1 | 1                 ; 0/9 3/3         ;
            only an interaction is infinite      ; 1 0 0 0 | 1 1 0 0 | 1 0 1 0 | 1 1 1 1 ; 4/9 5/9 3/9 0/9 ; 3
            main effects bear with an empty cell ; 1 0 0 | 1 1 0 | 1 0 1 | 1 1 1         ; 4/9 5/9 3/9 0/9 ;
            none in one corner all in the other  ; 1 0 0 | 1 0 1 | 1 1 0 | 1 1 1         ; 0/9 4/9 3/9 9/9 ; 0 3
            two treatments pushed both ways            ; 1 0 0 | 1 0 1 | 1 1 0 | 1 1 1         ; 0/9 0/9 3/9 9/9 ; 0 1 3
            """)
    void findsTheRowsWhoseOddsAreInfinite(
            String name,
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            String separated) {
        var expected = separated == null
                ? List.of()
                : java.util.Arrays.stream(separated.split(" ", -1))
                        .map(Integer::valueOf)
                        .toList();
        assertEquals(expected, Separation.rows(Models.of(rows), counts));
    }

    @ParameterizedTest
    @CsvFileSource(resources = "separation-random.csv", useHeadersInDisplayName = true)
    void agreesWithWhereTheFitRunsAway(
            @ConvertWith(Cells.Rows.class) double[][] rows,
            @ConvertWith(Cells.Counts.class) List<Count> counts,
            boolean separated) {
        assertEquals(separated, !Separation.rows(Models.of(rows), counts).isEmpty());
    }

    @Test
    void manyTraysAreNoHindrance() {
        var rows = IntStream.range(0, 2000)
                .mapToObj(i -> IntStream.range(0, 40)
                        .mapToDouble(j -> j == 0 || i % 40 == j ? 1 : 0)
                        .toArray())
                .toArray(double[][]::new);
        var counts = IntStream.range(0, 2000)
                .mapToObj(i -> new Count(i % 40 == 7 ? 0 : 1 + i % 40, 50))
                .toList();
        var expected = IntStream.range(0, 2000).filter(i -> i % 40 == 7).boxed().toList();
        assertEquals(expected, Separation.rows(Models.of(rows), counts));
    }
}
