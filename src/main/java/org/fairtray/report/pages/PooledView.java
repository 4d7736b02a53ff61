package org.fairtray.report.pages;

import java.util.List;

/**
 * The page on what many trials showed together, in the order of reading.
 *
 * @param style the style sheet
 * @param title its heading
 * @param facts how many trials, farms and trays
 * @param cards a verdict for each factor
 * @param parts pictures for everyone
 * @param leftOut trials that were left out, with the reason
 * @param notes what was taken for the same, and what to mind
 * @param groups everything else, folded away
 * @param methods what was done, in sentences
 * @param cautions what anyone should mind
 * @param version of the program
 */
public record PooledView(
        String style,
        String title,
        List<ReportView.Fact> facts,
        List<OutcomeView.Card> cards,
        List<Group> parts,
        Group leftOut,
        List<String> notes,
        List<Group> groups,
        List<String> methods,
        List<String> cautions,
        String version) {

    public PooledView {
        facts = List.copyOf(facts);
        cards = List.copyOf(cards);
        parts = parts.stream().filter(p -> !p.isEmpty()).toList();
        notes = List.copyOf(notes);
        groups = groups.stream().filter(g -> !g.isEmpty()).toList();
        methods = List.copyOf(methods);
        cautions = List.copyOf(cautions);
    }
}
