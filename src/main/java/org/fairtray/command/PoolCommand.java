package org.fairtray.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.fairtray.archive.Search;
import org.fairtray.design.Fault;
import org.fairtray.files.CommonNamesFile;
import org.fairtray.files.NewFile;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Wording;
import org.fairtray.jobs.Version;
import org.fairtray.network.Sources;
import org.fairtray.pooling.Pooling;
import org.fairtray.pooling.PoolingChoices;
import org.fairtray.report.PooledPage;
import org.fairtray.report.PooledText;
import org.fairtray.report.ResultsJson;
import org.fairtray.trial.CommonNames;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "pool",
        mixinStandardHelpOptions = true,
        description = "Analyses the shared trials of many growers together.")
final class PoolCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(
            paramLabel = "FILE",
            arity = "1..*",
            description =
                    "Packs, folders of packs, folders of trials, or an archive: its file, or its PostgreSQL address.")
    private List<String> sources;

    @Mixin
    private ArchiveSearchOptions which;

    @Option(
            names = "--names",
            paramLabel = "FILE",
            description = "Which names of the trials mean the same; --propose writes a first one.")
    private Path names;

    @Option(
            names = "--propose",
            paramLabel = "FILE",
            description =
                    "Write names that may mean the same into this file, for you to read and change. Nothing is pooled.")
    private Path propose;

    @Option(names = "--report", paramLabel = "FILE", description = "Write the report here; pooled.html without it.")
    private Path report;

    @Option(names = "--no-report", description = "Write no report.")
    private boolean noReport;

    @Option(
            names = "--despite",
            paramLabel = "KIND",
            description =
                    "Take trials in despite a fault of this kind, such as 'not randomised'; may be given several times.")
    private List<String> despite = List.of();

    @Option(
            names = "--worthwhile",
            paramLabel = "SHARE",
            description =
                    "The smallest difference worth acting on, such as 0.1; without it the smallest that a plan names.")
    private Double worthwhile;

    @Option(
            names = "--alpha",
            paramLabel = "SHARE",
            defaultValue = "0.05",
            description = "Error rate of a test; ${DEFAULT-VALUE} without it.")
    private double alpha;

    @Option(
            names = "--most-trays",
            paramLabel = "N",
            defaultValue = "" + PoolingChoices.SOME_TRAYS,
            description = "Put all trays into one model only up to so many; ${DEFAULT-VALUE} without it.")
    private int mostTrays;

    @Option(names = "--replace", description = "Replace a file that is there already.")
    private boolean replace;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    /** What may mean the same, for programs. */
    record Proposed(String file, List<String> reasons) {}

    @Override
    public Integer call() {
        var choices = choices();
        try (var from = sources()) {
            return pool(from, choices);
        }
    }

    private int pool(Sources trials, PoolingChoices choices) {
        if (propose != null) {
            var proposal = Pooling.proposal(trials, choices);
            var remarks = Stream.concat(
                            Stream.of("Names that may mean the same. Take out what doesn't, then: pool ... --names "
                                    + propose + "."),
                            proposal.reasons().stream())
                    .toList();
            NewFile.write(
                    propose, CommonNamesFile.text(proposal.names(), remarks).getBytes(StandardCharsets.UTF_8), replace);
            print(new Proposed(propose.toString(), proposal.reasons()), proposed(proposal.reasons()));
            return Fairtray.DONE;
        }
        var pooled = Pooling.of(trials, choices, Version.text());
        var lines = new ArrayList<>(PooledText.of(pooled));
        if (!noReport && (report != null || !json)) {
            var file = Optional.ofNullable(report).orElse(Path.of("pooled.html"));
            NewFile.write(file, PooledPage.of(pooled).getBytes(StandardCharsets.UTF_8), replace || report == null);
            lines.add("");
            lines.add("Report: " + file);
        }
        print(pooled, lines);
        return Fairtray.DONE;
    }

    private void print(Record result, List<String> forPeople) {
        var out = spec.commandLine().getOut();
        if (json) {
            ResultsJson.print(result, out);
        } else {
            forPeople.forEach(out::println);
        }
        out.flush();
    }

    private List<String> proposed(List<String> reasons) {
        return reasons.isEmpty()
                ? List.of("No two names are near each other. Written: " + propose + ".")
                : Stream.concat(
                                reasons.stream().map(r -> "May be the same: " + r + "."),
                                Stream.of("Written: " + propose + ". Take out what isn't so; then pool with --names "
                                        + propose + "."))
                        .toList();
    }

    private Sources sources() {
        var line = new ProgressLine(spec.commandLine().getErr(), Ansi.AUTO.enabled());
        try {
            var from = Sources.open(sources, which.search(false), done -> line.show(done + " trials read"));
            if (!from.hasArchive() && !which.search(false).equals(Search.all())) {
                from.close();
                throw new ParameterException(
                        spec.commandLine(),
                        "--crop, --factor, --medium, --word and --protocol look in an archive only");
            }
            return from;
        } finally {
            line.clear();
        }
    }

    private PoolingChoices choices() {
        if (!(alpha > 0 && alpha <= 0.5)
                || (worthwhile != null && !(worthwhile > 0 && worthwhile < 1))
                || mostTrays < 0) {
            throw new ParameterException(
                    spec.commandLine(),
                    "--alpha " + alpha + (worthwhile == null ? "" : " --worthwhile " + worthwhile) + " --most-trays "
                            + mostTrays
                            + ": expected alpha above 0 and at most 0.5, worthwhile above 0 and below 1, trays"
                            + " from 0");
        }
        var kinds = Stream.of(Fault.Kind.values()).map(Fault.Kind::label).toList();
        for (String kind : despite) {
            if (!kinds.contains(kind)) {
                throw new ParameterException(
                        spec.commandLine(),
                        "--despite " + Wording.quote(kind) + ": expected one of " + String.join(", ", kinds));
            }
        }
        return new PoolingChoices(
                names == null ? CommonNames.NONE : readNames(),
                new LinkedHashSet<>(despite),
                worthwhile == null ? OptionalDouble.empty() : OptionalDouble.of(worthwhile),
                alpha,
                mostTrays);
    }

    private CommonNames readNames() {
        try {
            return CommonNamesFile.read(names.toString(), Files.readAllBytes(names));
        } catch (IOException e) {
            throw new ProblemsException(new Problem(
                    names.toString(),
                    0,
                    "no file that can be read",
                    "names, as --propose writes them",
                    Optional.empty()));
        }
    }
}
