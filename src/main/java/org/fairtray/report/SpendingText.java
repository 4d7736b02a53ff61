package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.fairtray.sizing.Sizing;
import org.fairtray.sizing.Spending;

/** What other sizes of a trial cost, and what was learned from an earlier one, as text. */
final class SpendingText {
    private SpendingText() {}

    /** Lines of 80 letters at most, save for long names. */
    static List<String> of(Sizing sizing) {
        var spending = sizing.spending();
        var lines = new ArrayList<String>();
        lines.add("");
        lines.add("Sensible sizes, cheapest first (" + spending.currency() + ")");
        lines.addAll(Columns.table(
                List.of("", "trays", "frames", "seeds in\na frame", "finds\nit in", "costs", "minutes\na day"),
                spending.choices().stream().map(SpendingText::row).toList()));
        if (spending.choices().stream().anyMatch(c -> !c.fits())) {
            lines.addAll(Columns.wrap("* more than the place, the money, the time or the seed allows", "", ""));
        }
        var best = new SizingWords(sizing).bestSeeds();
        if (!best.isEmpty()) {
            lines.addAll(Columns.wrap(best, "", ""));
        }
        return lines;
    }

    private static List<String> row(Spending.Choice choice) {
        return List.of(
                choice.why(),
                choice.trays() + (choice.fits() ? "" : "*"),
                Integer.toString(choice.frames()),
                Integer.toString(choice.seedsPerFrame()),
                SizingWords.chance(choice.power()),
                String.format(Locale.ROOT, "%.0f", choice.cost()),
                Long.toString(Math.round(choice.minutesADay())));
    }

    /** What was learned, and the assurance of each term. */
    static List<String> of(Sizing.Earlier earlier) {
        var lines = new ArrayList<String>();
        lines.add("");
        lines.addAll(Columns.wrap("What '" + earlier.trial() + "' showed (" + earlier.outcome() + ")", "", ""));
        lines.addAll(Columns.table(
                List.of("", "best guess", "likely between"),
                earlier.figures().stream()
                        .map(f -> List.of(f.key(), number(f.value()), number(f.low()) + " and " + number(f.high())))
                        .toList()));
        lines.addAll(Columns.table(
                List.of("", "power with\nthe guesses", "assurance"),
                earlier.assurances().stream()
                        .map(a -> List.of(a.term(), SizingWords.chance(a.power()), SizingWords.chance(a.assurance())))
                        .toList()));
        lines.addAll(Columns.wrap(
                "Assurance is the chance to find the difference with all that the earlier trial leaves unsure.",
                "",
                ""));
        return lines;
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, value < 0.1 ? "%.3f" : "%.2f", value);
    }
}
