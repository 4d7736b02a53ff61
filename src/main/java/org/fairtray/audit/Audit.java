package org.fairtray.audit;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.design.Fault;
import org.fairtray.design.Faults;
import org.fairtray.design.Structure;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Seal;
import org.fairtray.trial.Trial;

/**
 * What an audit found.
 *
 * @param fair whether nothing was found
 * @param findings in the order of the plan's factors, then the seal
 */
public record Audit(boolean fair, List<Finding> findings) {

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
    }

    /** Audits a layout, laid out by this program or by hand, with or without readings. */
    public static Audit of(Trial trial, Layout layout, Seal.State seal) {
        var faults = new ArrayList<>(Faults.of(Structure.of(trial, layout.trays())));
        if (seal != Seal.State.HOLDS) {
            faults.add(notRandomised(seal));
        }
        var findings = faults.stream()
                .map(f -> new Finding(f.kind().label(), f.factors(), f.places(), f.sentence(), f.remedy()))
                .toList();
        return new Audit(findings.isEmpty(), findings);
    }

    private static Fault notRandomised(Seal.State seal) {
        boolean absent = seal == Seal.State.ABSENT;
        return new Fault(
                Fault.Kind.NOT_RANDOMISED,
                List.of(),
                List.of(),
                absent
                        ? "Nothing shows that chance decided which tray got what: the layout has no seal."
                        : "The " + changed(seal)
                                + " changed after sealing, so the layout is not the one that chance drew.",
                absent
                        ? "Before sowing, let lay draw the layout. If it was drawn by lot by hand, write down how."
                        : "Go back to the sealed files, or lay again before sowing (lay --replace).");
    }

    private static String changed(Seal.State seal) {
        return switch (seal) {
            case PLAN_CHANGED -> "plan was";
            case LAYOUT_CHANGED -> "layout was";
            default -> "plan and the layout were";
        };
    }
}
