package org.fairtray.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

class ArchiveCommandTest {
    @Test
    void saysWhatCanBeDone() {
        var run = Run.of("archive");
        assertEquals(Fairtray.USAGE, run.status());
        assertEquals("say what is to be done: list, export, withdraw", run.complaints()[0]);
    }
}
