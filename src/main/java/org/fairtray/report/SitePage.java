package org.fairtray.report;

import java.util.List;
import org.fairtray.report.pages.SiteView;

/** A page of the site of a network's shared trials, in the report's look. */
public final class SitePage {
    private SitePage() {}

    /** The whole page; parameters as for {@link SiteView}. */
    public static String of(
            String title,
            String heading,
            String counted,
            List<SiteView.Filter> filters,
            List<SiteView.Trial> trials,
            List<SiteView.Word> pages,
            String version) {
        return Report.rendered(
                "site/list.jte",
                new SiteView(Report.style(), title, heading, counted, filters, trials, pages, version));
    }
}
