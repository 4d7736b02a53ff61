package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntFunction;
import java.util.stream.Collectors;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.sheets.pdf.PdfFile;
import org.fairtray.sheets.pdf.PdfTypeface;
import org.fairtray.trial.Handling;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Trial;

/** The sheets of a laid-out trial: one file for the rack, which doesn't say which tray gets what, and the key, which does. */
public final class Sheets {
    /** The file for the rack. */
    public static final String SHEETS = "sheets.pdf";
    /** The file that is kept closed. */
    public static final String KEY = "key.pdf";
    /** More lines to count or to move than this, all days together, are not for paper: about a thousand pages. */
    private static final long MOST_LINES = 30_000;

    private final Desk desk;
    private final PdfTypeface face;
    private final List<Part> parts = new ArrayList<>();
    private final List<Page> key;

    /**
     * Works out what is on every page.
     *
     * @param layout trays of the trial, in any order
     * @param handling what is known of its frames and moves
     */
    public Sheets(Trial trial, Layout layout, Handling handling, Printing printing) {
        face = new PdfTypeface();
        desk = new Desk(trial, layout, handling, printing, face);
        var counting = trial.counting();
        long lines = (long) layout.trays().size()
                * counting.framesPerTray()
                * counting.days().size();
        int moves = handling.moves().size();
        if (lines + moves > MOST_LINES) {
            parts.add(new Part("Note", 1, tooMany(lines, moves)));
            key = tooMany(lines, moves);
            return;
        }
        add(RackMap.NAME, RackMap.of(desk));
        add(Protocol.NAME, Protocol.of(desk));
        add(FrameSheets.NAME, FrameSheets.of(desk));
        add(MoveSheets.NAME, ofDays(handling.movingDays(), day -> MoveSheets.of(desk, day)));
        add(CountingSheets.NAME, ofDays(counting.days(), day -> CountingSheets.of(desk, day)));
        add(Labels.NAME, Labels.of(desk));
        key = Key.of(desk);
    }

    private static List<Page> ofDays(List<Integer> days, IntFunction<List<Page>> sheets) {
        return days.stream().flatMap(day -> sheets.apply(day).stream()).toList();
    }

    private void add(String name, List<Page> pages) {
        if (pages.isEmpty()) {
            return;
        }
        int before = parts.stream().mapToInt(p -> p.pages.size()).sum();
        parts.add(new Part(name, before + 1, pages));
    }

    private List<Page> tooMany(long lines, int moves) {
        var flow = desk.flow("No sheets");
        flow.paragraph(
                "This trial has " + lines + " lines to count" + (moves > 0 ? " and " + moves + " moves" : "")
                        + ", more than the " + MOST_LINES + " that are printed. Work from layout.csv.",
                Style.plain(12),
                0);
        return flow.pages();
    }

    /**
     * Pages of one kind that lie together.
     *
     * @param first the number of the first page in its file, from 1
     */
    public record Part(String name, int first, List<Page> pages) {
        public Part {
            pages = List.copyOf(pages);
        }

        /** Such as "Rack map: page 1" or "Labels: pages 7 to 9". */
        public String describe() {
            int last = first + pages.size() - 1;
            return name + ": page" + (last > first ? "s " + first + " to " + last : " " + first);
        }
    }

    /** What {@link #SHEETS} is made of, in its order; labels are the last. */
    public List<Part> parts() {
        return List.copyOf(parts);
    }

    /** What is in the file for the rack, page by page. */
    public String describe() {
        return "In " + SHEETS + " are " + parts.stream().map(Part::describe).collect(Collectors.joining("; ")) + ".";
    }

    /** The pages of {@link #KEY}. */
    public List<Page> key() {
        return key;
    }

    /** The bytes of both files, by their names; the same trial, layout and printing give the same bytes. */
    public Map<String, byte[]> files() {
        int all = parts.stream().mapToInt(p -> p.pages.size()).sum();
        var pages = new ArrayList<Page>();
        for (var part : parts) {
            pages.addAll(part.name.equals(Labels.NAME) ? part.pages : desk.numbered(part.pages, pages.size(), all));
        }
        var files = new LinkedHashMap<String, byte[]>();
        var title = desk.trial().title();
        files.put(SHEETS, PdfFile.of(pages, title, face));
        files.put(KEY, PdfFile.of(desk.numbered(key, 0, key.size()), title + " (key)", face));
        return files;
    }
}
