package org.fairtray.report.pages;

import java.util.List;

/**
 * The page that says how many trays, in the order of reading.
 *
 * @param style the style sheet
 * @param title the trial's name
 * @param facts trays, seeds, the change that matters
 * @param advice what to do
 * @param notes what to bear in mind
 * @param parts tables and charts for everyone
 * @param groups everything else, folded away
 * @param version of the program
 */
public record SizingView(
        String style,
        String title,
        List<ReportView.Fact> facts,
        String advice,
        List<String> notes,
        List<Group> parts,
        List<Group> groups,
        String version) {

    public SizingView {
        facts = List.copyOf(facts);
        notes = List.copyOf(notes);
        parts = parts.stream().filter(p -> !p.isEmpty()).toList();
        groups = groups.stream().filter(g -> !g.isEmpty()).toList();
    }
}
