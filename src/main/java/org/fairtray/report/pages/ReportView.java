package org.fairtray.report.pages;

import java.util.List;

/**
 * Everything on the report, in the order of reading.
 *
 * @param style the style sheet
 * @param title the trial's name
 * @param question the question, or empty
 * @param label what must be said of the data before all else, such as that they are invented; or empty
 * @param facts crop, trays, design
 * @param textbook where the design's name comes from, and how places lie in and across each other; or empty
 * @param warnings what stands in the way of an answer
 * @param map where the trays stood
 * @param photos those that were chosen
 * @param main the question's own outcome
 * @param others secondary outcomes
 * @param definitions what was counted as what
 * @param seal how to do it again and get the same
 * @param cautions what to mind with food, weights and water
 * @param version of the program
 */
public record ReportView(
        String style,
        String title,
        String question,
        String label,
        List<Fact> facts,
        String textbook,
        List<String> warnings,
        TrayMapView map,
        List<PhotoView> photos,
        OutcomeView main,
        List<OutcomeView> others,
        List<Fact> definitions,
        List<Fact> seal,
        String sealSentence,
        List<String> cautions,
        String version) {

    /** A name and what it is. */
    public record Fact(String name, String value) {}
}
