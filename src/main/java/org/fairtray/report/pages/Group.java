package org.fairtray.report.pages;

import java.util.List;
import org.fairtray.report.pages.OutcomeView.Figure;

/**
 * Tables and charts that belong together, folded away under a heading.
 *
 * @param id unique on the page
 * @param heading in plain words
 * @param hint what to expect inside, in a few words; may be empty
 * @param reading a sentence or two before the tables; may be empty
 * @param forStatisticians whether it stays folded away on paper too, unless a reader opened it
 * @param figures charts, which come before the tables
 * @param tables those without rows are left out
 * @param within groups folded away inside, those with nothing to show left out
 */
public record Group(
        String id,
        String heading,
        String hint,
        String reading,
        boolean forStatisticians,
        List<Figure> figures,
        List<Table> tables,
        List<Group> within) {

    public Group {
        figures = List.copyOf(figures);
        tables = tables.stream().filter(t -> !t.rows().isEmpty()).toList();
        within = within.stream().filter(g -> !g.isEmpty()).toList();
    }

    /** Whether there is nothing to show. */
    public boolean isEmpty() {
        return figures.isEmpty() && tables.isEmpty() && within.isEmpty();
    }

    /** What paper says in place of a group that is folded away. */
    public String folded() {
        return "folded away, " + counted(tableCount(), "table")
                + (figures.isEmpty() ? "" : " and " + counted(figures.size(), "chart"))
                + ": open it on the screen to print it";
    }

    private int tableCount() {
        return tables.size() + within.stream().mapToInt(Group::tableCount).sum();
    }

    private static String counted(int number, String thing) {
        return number + " " + thing + (number == 1 ? "" : "s");
    }
}
