package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.sheets.paper.Box;
import org.fairtray.sheets.paper.Canvas;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Paper;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Tray;

/** A label for each tray: its code, its place and a camera code; no treatment. Printed at full size on label sheets. */
final class Labels {
    static final String NAME = "Labels";

    /**
     * A sheet of labels.
     *
     * @param first the label in the upper left corner, mm
     * @param pitch from the left edge of one label to the next, mm
     * @param margin what stays white inside a label, mm
     */
    record Sheet(int columns, int rows, Box first, double pitch, double margin) {
        /** Common practice, no source: 24 labels that fill an A4 sheet but for half a millimetre above and below. */
        static final Sheet A4 = new Sheet(3, 8, new Box(0, 0.5, 70, 37), 70, 5);
        /** From memory: 30 labels of 2 5/8 by 1 inch, half an inch above, 3/16 inch at the side, 2 3/4 inch apart. */
        static final Sheet LETTER = new Sheet(3, 10, new Box(4.76, 12.7, 66.7, 25.4), 69.85, 2);

        static Sheet on(Paper paper) {
            return switch (paper) {
                case A4 -> A4;
                case LETTER -> LETTER;
            };
        }

        int labels() {
            return columns * rows;
        }

        Box label(int number) {
            int row = number / columns;
            int column = number % columns;
            return new Box(
                    first.left() + column * pitch, first.top() + row * first.height(), first.width(), first.height());
        }
    }

    private Labels() {}

    static List<Page> of(Desk desk) {
        var sheet = Sheet.on(desk.paper());
        var pages = new ArrayList<Page>();
        for (int start = 0; start < desk.trays().size(); start += sheet.labels()) {
            var page = desk.blank();
            int end = Math.min(desk.trays().size(), start + sheet.labels());
            for (int i = start; i < end; i++) {
                draw(
                        desk,
                        page,
                        sheet.label(i - start).within(sheet.margin()),
                        desk.trays().get(i));
            }
            pages.add(page.page());
        }
        return pages;
    }

    private static void draw(Desk desk, Canvas page, Box label, Tray tray) {
        double side = Math.min(label.height(), label.width() * 0.45);
        var square = new Box(label.right() - side, label.top() + (label.height() - side) / 2, side, side);
        page.cameraCode(square, desk.printing().cameraCode(tray.code()));
        double width = label.width() - side - 1;
        double codeHeight = label.height() * 0.55;
        page.write(
                new Box(label.left(), label.top(), width, codeHeight),
                tray.code(),
                Style.plain(34).heavy());
        page.write(
                new Box(label.left(), label.top() + codeHeight, width, label.height() - codeHeight),
                (desk.handling().moves().isEmpty() ? "" : "at sowing: ") + desk.where(tray),
                Style.plain(10));
    }
}
