package org.fairtray.command;

import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.fairtray.jobs.Version;
import org.fairtray.network.Site;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;

@Command(
        name = "site",
        mixinStandardHelpOptions = true,
        description =
                "Writes the trials of an archive as web pages without scripts, for any web space: lists, reports, packs"
                        + " and a feed. Reports are made anew from the packs; those there already are kept.")
final class ArchiveSiteCommand implements Callable<Integer> {
    @Mixin
    private ArchiveOptions archive;

    @Parameters(index = "1", paramLabel = "FOLDER", description = "Where the pages are written.")
    private Path folder;

    @Mixin
    private ArchiveSearchOptions which;

    @Option(
            names = "--title",
            paramLabel = "WORDS",
            defaultValue = "Shared trials",
            description = "The site's heading; '${DEFAULT-VALUE}' without it.")
    private String title;

    @Option(
            names = "--at",
            paramLabel = "URL",
            description =
                    "Where the pages will be, such as https://example.org/trials/; the feed needs it for readers that"
                            + " don't take short addresses.")
    private String address;

    @Override
    public Integer call() {
        var at = Optional.ofNullable(address).map(this::checked);
        var progress = new ProgressLine(archive.err(), Ansi.AUTO.enabled());
        try (var opened = archive.existing()) {
            var written = Site.write(
                    opened,
                    which.search(false),
                    folder,
                    title,
                    at,
                    Version.text(),
                    done -> progress.show(done + " trials written"));
            progress.clear();
            archive.print(written, said(written));
        } finally {
            progress.clear();
        }
        return Fairtray.DONE;
    }

    private static List<String> said(Site.Written written) {
        return List.of(
                written.trials() + (written.trials() == 1 ? " trial, " : " trials, ") + written.reports()
                        + " with a report (" + written.madeAnew() + " made now), " + written.pages()
                        + " pages of lists.",
                "Open " + Path.of(written.folder()).resolve("index.html")
                        + ", or put the folder on any web space. Look it through first: what growers wrote into titles and"
                        + " questions is shown as it is.");
    }

    private String checked(String url) {
        try {
            var uri = URI.create(url);
            if (uri.getHost() != null && ("https".equals(uri.getScheme()) || "http".equals(uri.getScheme()))) {
                return url.endsWith("/") ? url : url + "/";
            }
        } catch (IllegalArgumentException e) {
            throw refused(url);
        }
        throw refused(url);
    }

    private ParameterException refused(String url) {
        return new ParameterException(
                archive.commandLine(), "--at '" + url + "': expected an address such as https://example.org/trials/");
    }
}
