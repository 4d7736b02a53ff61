package org.fairtray.report.pages;

import java.util.List;

/**
 * One outcome's part of the report.
 *
 * @param id unique on the page
 * @param name such as "through by day 6"
 * @param lead what was counted and on how many trays
 * @param cards a verdict for each factor
 * @param interactions how factors work together, sentence by sentence
 * @param trays every tray by its treatment
 * @param summary the same in numbers; none where there is nothing to sum up
 * @param effects differences from the control
 * @param groups everything else, folded away, in the order of reading
 * @param methods what was done, in sentences
 */
public record OutcomeView(
        String id,
        String name,
        String lead,
        List<Card> cards,
        List<String> interactions,
        List<Figure> trays,
        List<Table> summary,
        List<Figure> effects,
        List<Group> groups,
        String methods) {

    /**
     * A verdict.
     *
     * @param about the factor
     * @param word what came out
     * @param sentence the same with numbers
     */
    public record Card(String about, String word, String sentence) {
        /** The name of its mark: changed, same or open. */
        public String mark() {
            return switch (word) {
                case "changed" -> "changed";
                case "no worthwhile change" -> "same";
                default -> "open";
            };
        }
    }

    /**
     * A chart with words.
     *
     * @param heading a short name; may be empty
     * @param svg the chart, already escaped
     * @param reading how to read it
     */
    public record Figure(String heading, String svg, String reading) {}
}
