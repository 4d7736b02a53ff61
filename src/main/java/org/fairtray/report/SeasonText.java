package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.fairtray.season.Season;

/** A season for people, as text. */
public final class SeasonText {
    private SeasonText() {}

    /** Lines of 80 letters at most, save for long names. */
    public static List<String> of(Season season) {
        var lines = new ArrayList<String>();
        lines.addAll(Columns.wrap(
                String.format(
                        Locale.ROOT,
                        "%d days on one rack answer %.1f of %d questions, on average. Sow in this order, so that most is"
                                + " answered if the season ends early.",
                        season.days(),
                        season.answered(),
                        season.questions()),
                "",
                ""));
        lines.add("");
        lines.addAll(Columns.table(
                List.of("", "sowings", "days", "trays\neach", "finds it in"),
                season.sown().stream().map(SeasonText::row).toList()));
        if (!season.waiting().isEmpty()) {
            lines.addAll(Columns.wrap("Must wait: " + String.join(", ", season.waiting()) + ".", "", ""));
        }
        lines.add("");
        lines.addAll(Columns.wrap(
                season.left()
                        + " days stay free. Every division of the days was looked at. A question is a factor, answered with the"
                        + " power of its test (fairtray size) for what its plan calls worthwhile; several sowings of a plan are each"
                        + " drawn anew and analysed together, as blocks. All questions count alike: leave out a plan that matters"
                        + " less.",
                "",
                ""));
        return lines;
    }

    private static List<String> row(Season.Sown sown) {
        return List.of(
                sown.trial(),
                Integer.toString(sown.sowings()),
                Integer.toString(sown.days()),
                Integer.toString(sown.trays()),
                sown.answers().stream()
                        .map(a -> a.factor() + " " + SizingWords.chance(a.power()))
                        .collect(Collectors.joining(", ")));
    }
}
