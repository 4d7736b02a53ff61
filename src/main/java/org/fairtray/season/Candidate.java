package org.fairtray.season;

import java.util.List;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.sizing.StrataPower;

/**
 * A trial that could be sown.
 *
 * @param name what it is called, such as its folder
 * @param layout of one sowing
 * @param days that the rack is taken by one sowing: up to the last counting day, and what cleaning takes
 */
public record Candidate(String name, SizedLayout layout, int days) {

    /** @throws IllegalArgumentException if it takes no day */
    public Candidate {
        if (days < 1) {
            throw new IllegalArgumentException(name + " takes " + days + " days: expected 1 or more");
        }
    }

    /** The power of each factor with so many sowings, each drawn anew: its layout so often. */
    List<Season.Answer> answers(int sowings) {
        var option = layout.option().repeated(sowings);
        return layout.tests().stream()
                .filter(t -> t.term().isMain())
                .map(t -> new Season.Answer(
                        t.term().name(),
                        new StrataPower(t, layout.assumptions(), option)
                                .power(layout.assumptions().worthwhile())))
                .toList();
    }

    /** How many of its questions are answered, on average. */
    double answered(int sowings) {
        return sowings == 0
                ? 0
                : answers(sowings).stream().mapToDouble(Season.Answer::power).sum();
    }
}
