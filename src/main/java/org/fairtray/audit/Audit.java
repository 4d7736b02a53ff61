package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.design.Fault;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/**
 * What an audit found.
 *
 * @param fair whether nothing was found
 * @param findings the layout's faults, then patterns, then the size, then the seal
 * @param notes what the audit took for granted or could not know, in sentences
 * @param advice a page of plain advice where every treatment has one tray; else nothing
 */
public record Audit(boolean fair, List<Finding> findings, List<String> notes, List<String> advice) {

    /**
     * One finding.
     *
     * @param kind a word such as confounded or no replication
     * @param factors the factors it touches
     * @param places the place levels it touches
     * @param sentence what is wrong, in a grower's words
     * @param remedy what would mend it
     */
    public record Finding(String kind, List<String> factors, List<String> places, String sentence, String remedy) {}

    public Audit {
        findings = List.copyOf(findings);
        notes = List.copyOf(notes);
        advice = List.copyOf(advice);
    }

    /**
     * Audits a layout, laid out by this program or by hand.
     *
     * @param layout one tray or more
     * @param readings none before the first is taken; with them trays that were not read on the day of the question's own
     *     outcome are left out, as soon as any was read on it
     */
    public static Audit of(Trial trial, Layout layout, Seal.State seal, List<Reading> readings) {
        var read = read(trial, layout, readings);
        var trays = read.isEmpty() ? layout.trays() : read;
        var structure = Structure.of(trial, trays);
        boolean whole = trays.size() == layout.trays().size();
        var faults = new ArrayList<>(looks(structure, whole, seal));
        if (seal != Seal.State.HOLDS) {
            faults.add(notRandomised(seal, !readings.isEmpty()));
        }
        return of(
                faults,
                notes(structure, layout.trays().size() - trays.size()),
                FairVersion.isWanted(Structure.of(trial, layout.trays()))
                        ? Advice.of(trial, layout.trays().size(), fairVersion(trial, layout))
                        : List.of());
    }

    /**
     * Audits a plan by a layout that it could have: what any of its layouts shows, and no patterns, which another draw would
     * not have. What mends it is said without swapping trays that aren't drawn yet.
     *
     * @param layout one tray or more
     */
    public static Audit ofPlan(Trial trial, Layout layout) {
        var structure = Structure.of(trial, layout.trays());
        var faults = new ArrayList<>(atTrays(structure, true));
        faults.addAll(Size.of(structure));
        return of(faults, notes(structure, 0), List.of());
    }

    private static Audit of(List<Fault> faults, List<String> notes, List<String> advice) {
        var findings = faults.stream()
                .map(f -> new Finding(f.kind().label(), f.factors(), f.places(), f.sentence(), f.remedy()))
                .toList();
        return new Audit(findings.isEmpty(), findings, notes, advice);
    }

    /**
     * The plan of the same question, each treatment repeated, where every treatment has one tray.
     *
     * @return empty where treatments are repeated, or where not one of each fits into the place
     */
    public static Optional<Trial> fairVersion(Trial trial, Layout layout) {
        return FairVersion.of(trial, layout);
    }

    /** The trays that were read on the day that counts. */
    private static List<Tray> read(Trial trial, Layout layout, List<Reading> readings) {
        var outcome = trial.outcomes().get(0);
        var codes = readings.stream()
                .filter(r -> r.day() == outcome.day() && r.values().containsKey(outcome.name()))
                .map(Reading::tray)
                .collect(Collectors.toSet());
        return layout.trays().stream().filter(t -> codes.contains(t.code())).toList();
    }

    private static List<Fault> looks(Structure structure, boolean whole, Seal.State seal) {
        var trial = structure.trial();
        var trays = structure.trays();
        var faults = new ArrayList<>(atTrays(structure, whole));
        var patterns = Patterns.of(structure, seal.layoutIsDrawn());
        faults.addAll(patterns.faults(trays));
        var mending = new Mending(trial, trays, List.copyOf(faults), after -> {
            var changed = Structure.of(trial, after);
            var again = new ArrayList<>(atTrays(changed, whole));
            again.addAll(Patterns.of(changed, seal.layoutIsDrawn()).faults(after));
            return again;
        });
        var mended = faults.stream()
                .map(f -> mending.of(f, patterns::regularity)
                        .map(change -> with(f, change))
                        .orElse(f))
                .collect(Collectors.toCollection(ArrayList::new));
        mended.addAll(Size.of(structure));
        return mended;
    }

    private static List<Fault> atTrays(Structure structure, boolean whole) {
        var trial = structure.trial();
        var trays = structure.trays();
        var faults = new ArrayList<>(Faults.of(structure));
        faults.addAll(PartlyConfounded.of(trial, trays));
        boolean factorsTogether = faults.stream()
                .anyMatch(f -> f.kind() == Fault.Kind.CONFOUNDED && f.places().isEmpty());
        Balance.of(structure).stream()
                .filter(f -> f.kind() != Fault.Kind.UNBALANCED || !factorsTogether)
                .forEach(faults::add);
        faults.addAll(Broken.of(trial, trays, whole));
        return faults;
    }

    private static Fault with(Fault fault, String change) {
        return new Fault(
                fault.kind(),
                fault.factors(),
                fault.places(),
                fault.sentence(),
                fault.remedy() + " The smallest change that does it, before sowing: " + change + ".");
    }

    private static Fault notRandomised(Seal.State seal, boolean read) {
        if (seal == Seal.State.ABSENT) {
            return notRandomised(
                    "Nothing shows that chance decided which tray got what: the layout has no seal.",
                    "Before sowing, let lay draw the layout. If it was drawn by lot by hand, write down how.");
        }
        return notRandomised(
                "The " + changed(seal) + " changed after sealing, so " + undone(seal)
                        + (read ? " Whether that was after the first reading, the files can't tell." : ""),
                "Go back to the sealed files, or lay again before sowing (lay --replace).");
    }

    private static Fault notRandomised(String sentence, String remedy) {
        return new Fault(Fault.Kind.NOT_RANDOMISED, List.of(), List.of(), sentence, remedy);
    }

    private static String undone(Seal.State seal) {
        return switch (seal) {
            case FRAMES_CHANGED -> "they don't lie where chance put them.";
            case MOVES_CHANGED -> "trays don't move as chance drew it.";
            case FRAMES_AND_MOVES_CHANGED -> "frames don't lie, and trays don't move, as chance drew it.";
            default -> "the layout is not the one that chance drew.";
        };
    }

    private static String changed(Seal.State seal) {
        return switch (seal) {
            case PLAN_CHANGED -> "plan was";
            case LAYOUT_CHANGED -> "layout was";
            case FRAMES_CHANGED -> "counting frames were";
            case MOVES_CHANGED -> "moves were";
            case FRAMES_AND_MOVES_CHANGED -> "counting frames and the moves were";
            default -> "plan and the layout were";
        };
    }

    private static List<String> notes(Structure structure, int notRead) {
        var trial = structure.trial();
        var notes = new ArrayList<>(Unrepeated.notes(structure));
        if (notRead > 0) {
            notes.add("Audited without " + notRead + " trays that were not read on day "
                    + trial.outcomes().get(0).day() + ".");
        }
        var expected = trial.expectations();
        boolean counted = trial.outcomes().get(0).match(c -> true, m -> false);
        if (!counted) {
            notes.add("Whether there are enough trays was not looked at: the first outcome is a measure.");
        } else if (expected.worthwhile().isEmpty() || expected.controlRate().isEmpty()) {
            notes.add(
                    "Whether there are enough trays was not looked at: expect doesn't say control_rate and worthwhile.");
        } else if (expected.trayCorrelation().isEmpty()) {
            notes.add(
                    "Too few trays were named only where they are too few even if trays treated alike differ by their seeds"
                            + " alone: expect doesn't say tray_correlation (0.05 is cautious; common practice, no source).");
        }
        return notes;
    }
}
