package org.fairtray.files;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.StringWriter;
import java.util.List;

/** Rows as CSV text: commas, line feeds, cells quoted where they must be and guarded against spreadsheets. */
final class CsvText {
    private final StringWriter text = new StringWriter();
    private final CsvWriter writer =
            CsvWriter.builder().lineDelimiter(LineDelimiter.LF).bufferSize(0).build(text);

    void add(List<String> cells) {
        writer.writeRecord(cells.stream().map(Guard::add).toList());
    }

    String text() {
        return text.toString();
    }
}
