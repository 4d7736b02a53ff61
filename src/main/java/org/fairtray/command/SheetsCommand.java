package org.fairtray.command;

import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.jobs.Needed;
import org.fairtray.sheets.Sheets;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

@Command(
        name = "sheets",
        mixinStandardHelpOptions = true,
        description =
                "Prints the sheets of a layout that is there already, drawn or made by hand: sheets.pdf, key.pdf.")
final class SheetsCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Mixin
    private SheetOptions options;

    @Option(names = "--replace", description = "Replace sheets that are there already.")
    private boolean replace;

    /** What was written, for programs. */
    record Printed(String trial, int trays, List<String> files) {}

    @Override
    public Integer call() {
        var folder = trial.folder();
        var files = folder.read();
        trial.printNotices(files);
        var layout = Needed.layout(files);
        var sheets = new Sheets(files.trial(), layout, files.handling(), options.printing());
        var written = sheets.files();
        folder.writeSheets(written, replace);
        trial.print(
                new Printed(files.trial().title(), layout.trays().size(), List.copyOf(written.keySet())),
                List.of("Written: " + String.join(", ", written.keySet()) + ".", sheets.describe()));
        return Fairtray.DONE;
    }
}
