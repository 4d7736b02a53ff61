package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

class ProgressLineTest {
    private static String written(boolean terminal) {
        var text = new StringWriter();
        var line = new ProgressLine(new PrintWriter(text), terminal);
        line.show("draw 10");
        line.show("draw 9");
        line.clear();
        line.clear();
        return text.toString();
    }

    @Test
    void eachTextCoversTheOneBeforeAndTheLastIsWipedOff() {
        assertEquals("\rdraw 10\rdraw 9 \r      \r", written(true));
    }

    @Test
    void nothingIsWrittenWhereNobodyLooksOn() {
        assertEquals("", written(false));
    }
}
