package org.fairtray.sharing;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.fairtray.files.Wording;
import org.fairtray.packs.Pack;

/**
 * Whether what a pack says holds: drawn again, analysed again, and held against what it says.
 *
 * @param checks one for each look, those first that this program could take
 */
public record Verification(List<Check> checks) {
    private static final Duration MOST = Duration.ofMinutes(10);

    private static final List<Check> NEVER_TOLD = List.of(
            Check.cannotBeTold("the counts", "Whether they are what stood in the trays, nobody can tell from a pack."),
            Check.cannotBeTold(
                    "the time of the draw", "Whether it was drawn before it was sown: its date is only written down."),
            Check.cannotBeTold(
                    "other draws",
                    "Whether others were drawn before and thrown away, until one was liked: nothing shows."),
            Check.cannotBeTold("the counters", "Who counted, and whether they knew what a tray had got."));

    public Verification {
        checks = List.copyOf(checks);
    }

    /** Looks at a pack; that may take minutes. */
    public static Verification of(Pack pack) {
        return of(pack, new Deadline(MOST));
    }

    static Verification of(Pack pack, Deadline deadline) {
        var checks = new ArrayList<Check>();
        checks.add(Check.agrees(
                "the files",
                "All " + pack.files().size() + " are the ones that were packed, by their SHA-256; the pack's own is "
                        + pack.id() + "."));
        checks.addAll(new Drawn(pack.trial(), deadline).checks());
        checks.addAll(new Reanalysed(pack, deadline).checks());
        checks.addAll(NEVER_TOLD);
        return new Verification(checks);
    }

    /** Whether anything came out otherwise than the pack says. */
    public boolean differs() {
        return checks.stream().anyMatch(c -> c.verdict().equals(Check.DIFFERS));
    }

    /** What came of it, line by line, for people. */
    public List<String> forPeople(Pack pack) {
        var lines = new ArrayList<String>();
        lines.add(Wording.visible(pack.title()));
        lines.add("Packed by version " + Wording.visible(pack.version())
                + pack.farm().map(f -> ", farm " + f).orElse("")
                + pack.licence().map(l -> ", licence " + l).orElse(", no licence given") + ".");
        lines.add("");
        for (var verdict : List.of(Check.DIFFERS, Check.AGREES, Check.CANNOT_BE_TOLD)) {
            checks.stream()
                    .filter(c -> c.verdict().equals(verdict))
                    .forEach(c -> lines.add(c.verdict() + ": " + c.what() + ". " + c.sentence()));
        }
        lines.add("");
        lines.add(
                differs()
                        ? "What the pack says isn't what comes of what is in it."
                        : "Nothing differs. That the pack agrees with itself doesn't make its counts true.");
        return lines;
    }
}
