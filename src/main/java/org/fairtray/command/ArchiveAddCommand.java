package org.fairtray.command;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.network.Arrivals;
import org.fairtray.network.PackFiles;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

@Command(
        name = "add",
        mixinStandardHelpOptions = true,
        description =
                "Adds packs to an archive, which is made where there is none. One that is there stays as it is; a bad"
                        + " one is told of, and the others are added.")
final class ArchiveAddCommand implements Callable<Integer> {
    @Mixin
    private ArchiveOptions archive;

    @Parameters(
            index = "1..*",
            arity = "1..*",
            paramLabel = "PACK",
            description = "Packs, or folders with packs in them.")
    private List<Path> named;

    @Option(names = "--bring-back", description = "Add those too that were withdrawn from this archive.")
    private boolean bringBack;

    @Override
    public Integer call() {
        var packs = PackFiles.in(named);
        var progress = new ProgressLine(archive.err(), Ansi.AUTO.enabled());
        try (var opened = archive.open()) {
            var summary = Arrivals.add(opened, packs, bringBack, new Arrivals.Told() {
                @Override
                public void read(int number) {
                    progress.show("read " + number + " of " + packs.size());
                }

                @Override
                public void refused(ProblemsException why) {
                    progress.clear();
                    why.problems().stream().map(Problem::describe).forEach(archive.err()::println);
                    archive.err().flush();
                }
            });
            progress.clear();
            archive.print(summary, List.of(said(summary)));
            return summary.refused() > 0 ? Fairtray.PROBLEM : Fairtray.DONE;
        } finally {
            progress.clear();
        }
    }

    private static String said(Arrivals.Summary summary) {
        return "Added: " + summary.added() + ". There already: " + summary.there() + "."
                + (summary.withdrawn() > 0
                        ? " Withdrawn before, and not added: " + summary.withdrawn() + " (--bring-back adds them)."
                        : "")
                + (summary.refused() > 0 ? " Refused: " + summary.refused() + "." : "");
    }
}
