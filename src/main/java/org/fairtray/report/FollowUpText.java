package org.fairtray.report;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.followup.FollowUp;

/** A follow-up for people, as text. */
public final class FollowUpText {
    private FollowUpText() {}

    /**
     * Lines of 80 letters at most, save for long names.
     *
     * @param title of the trial that is followed up
     */
    public static List<String> of(String title, FollowUp followUp) {
        var lines = new ArrayList<String>();
        lines.add("What comes after: " + title);
        lines.add("");
        followUp.reasoning().forEach(r -> lines.addAll(Columns.wrap(r, "  ", "    ")));
        return List.copyOf(lines);
    }

    /** The same as remarks for the head of its plan. */
    public static List<String> remarks(String title, FollowUp followUp) {
        var remarks = new ArrayList<String>();
        remarks.add("The follow-up of: " + title.replaceAll("\\R", " "));
        followUp.reasoning().forEach(r -> remarks.addAll(Columns.wrap(r, "", "  ")));
        return List.copyOf(remarks);
    }
}
