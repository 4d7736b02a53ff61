package org.fairtray.report;

import static org.fairtray.report.pages.Table.Column.number;
import static org.fairtray.report.pages.Table.Column.sentence;
import static org.fairtray.report.pages.Table.Column.text;

import java.util.Comparator;
import java.util.List;
import org.fairtray.findings.DataCheck;
import org.fairtray.report.pages.Table;

/** Whether the data can be relied on, what stands out first. */
final class SoundnessTable {
    private final List<DataCheck> checks;
    private final String id;

    SoundnessTable(List<DataCheck> checks, String id) {
        this.checks = checks;
        this.id = id;
    }

    /** How many checks found something; empty where none was made. */
    String hint() {
        long found = checks.stream().filter(c -> !c.sound()).count();
        if (checks.isEmpty()) {
            return "";
        }
        return found == 0 ? "nothing stands out" : Digits.counted(found, "thing", "things") + " to look at";
    }

    /** Every check. */
    Table table() {
        return new Table(
                id + "-table-sound",
                "Checks of the data",
                "“Look at it” is no verdict on a tray: find the reason first. No tray was left out because of these"
                        + " checks.",
                List.of(
                        text("Check"),
                        text("Verdict"),
                        sentence("What was found"),
                        sentence("What to do"),
                        number("Number"),
                        number("p")),
                checks.stream()
                        .sorted(Comparator.comparing(DataCheck::sound))
                        .map(SoundnessTable::row)
                        .toList());
    }

    private static List<String> row(DataCheck check) {
        return List.of(
                check.kind(),
                verdict(check),
                Digits.kept(check.sentence()),
                check.remedy().isBlank() ? "nothing" : Digits.kept(check.remedy()),
                Digits.statistic(check.statistic(), check.value()),
                Digits.p(check.p()));
    }

    private static String verdict(DataCheck check) {
        if (!check.sound()) {
            return "look at it";
        }
        return check.statistic() == null && check.value() == null ? "could not be checked" : "sound";
    }
}
