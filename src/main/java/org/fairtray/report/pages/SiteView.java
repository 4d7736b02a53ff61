package org.fairtray.report.pages;

import java.util.List;

/**
 * One page of the site of a network's shared trials.
 *
 * @param style the style sheet
 * @param title of the whole site
 * @param heading of this page
 * @param counted how many trials, in words
 * @param filters other pages with some of the trials
 * @param trials those on this page
 * @param pages the pages of this list; that one reads has no address
 * @param version of the program
 */
public record SiteView(
        String style,
        String title,
        String heading,
        String counted,
        List<Filter> filters,
        List<Trial> trials,
        List<Word> pages,
        String version) {

    /**
     * Trials that have a word in common, by word.
     *
     * @param more what isn't shown; may be empty
     */
    public record Filter(String id, String heading, List<Word> words, String more) {}

    /**
     * A link.
     *
     * @param trials how many, in brackets; may be empty
     */
    public record Word(String word, String href, String trials) {}

    /**
     * A trial.
     *
     * @param report its report's address; empty where there is none
     */
    public record Trial(String title, String question, String about, String added, String report, String pack) {}

    public SiteView {
        filters = filters.stream().filter(f -> !f.words().isEmpty()).toList();
        trials = List.copyOf(trials);
        pages = List.copyOf(pages);
    }
}
