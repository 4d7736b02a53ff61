package org.fairtray.files;

/** Checks that every quoted cell is closed, and that nothing but a separator follows; the CSV parser is lenient here. */
final class Quotes {
    private final String text;
    private final char separator;
    private int line = 1;
    private int at;

    private Quotes(String text, char separator) {
        this.text = text;
        this.separator = separator;
    }

    static void check(String text, char separator, Problems problems) {
        new Quotes(text, separator).check(problems);
    }

    private void check(Problems problems) {
        while (at < text.length()) {
            if (text.charAt(at) == '"') {
                quoted(problems);
            }
            toNextCell();
        }
    }

    private void quoted(Problems problems) {
        int opened = line;
        at++;
        while (at < text.length() && !closes()) {
            // A doubled quote stands for one and doesn't close the cell.
            at += text.charAt(at) == '"' ? 2 : step();
        }
        if (at >= text.length()) {
            problems.add(opened, "a quote that is never closed", "a second \" at the end of the cell");
            return;
        }
        at++;
        if (at < text.length() && !endsCell(text.charAt(at))) {
            problems.add(line, "text after a closing quote", "a separator; a quote inside a cell is written twice");
        }
    }

    private boolean closes() {
        return text.charAt(at) == '"' && !(at + 1 < text.length() && text.charAt(at + 1) == '"');
    }

    private void toNextCell() {
        while (at < text.length() && !endsCell(text.charAt(at))) {
            at++;
        }
        if (at < text.length()) {
            at += step();
        }
    }

    /** One character on, counting lines. */
    private int step() {
        char now = text.charAt(at);
        boolean pair = now == '\r' && at + 1 < text.length() && text.charAt(at + 1) == '\n';
        line += now == '\n' || (now == '\r' && !pair) ? 1 : 0;
        return 1;
    }

    private boolean endsCell(char c) {
        return c == separator || c == '\n' || c == '\r';
    }
}
