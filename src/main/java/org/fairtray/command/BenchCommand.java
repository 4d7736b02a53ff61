package org.fairtray.command;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import org.fairtray.bench.Refused;
import org.fairtray.bench.web.BenchServer;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "bench",
        mixinStandardHelpOptions = true,
        description =
                "Opens the page for planning, counting and reading in a browser, until Ctrl-C. Only this computer is"
                        + " heard, unless you say --share.")
final class BenchCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "DIR", description = "A trial's folder, or a folder of trials' folders.")
    private Path folder;

    @Option(
            names = "--share",
            description =
                    "Hear phones in the local network too. Each comes in by a code that is good once. What they send"
                            + " isn't encrypted: share it only in a network that you trust.")
    private boolean share;

    @Option(
            names = "--port",
            paramLabel = "N",
            defaultValue = "8717",
            description = "The port to listen on; ${DEFAULT-VALUE} without it, 0 for any that is free.")
    private int port;

    @Option(names = "--no-browser", description = "Don't open a browser.")
    private boolean noBrowser;

    @Override
    public Integer call() throws InterruptedException {
        if (port < 0 || port > 65_535) {
            throw new ParameterException(spec.commandLine(), "--port " + port + ": expected a number from 0 to 65535");
        }
        var running = new AtomicReference<BenchServer>();
        var opening = new BenchServer.Opening(
                folder, port, share, Clock.system(ZoneId.systemDefault()), code -> next(running.get()), this::tell);
        try (var bench = BenchServer.open(opening)) {
            running.set(bench);
            var stopped = new Thread(bench::close, "close");
            Runtime.getRuntime().addShutdownHook(stopped);
            AnalyseCommand.prepareReport();
            welcome(bench);
            open(bench.opening());
            bench.await();
        } catch (Refused e) {
            spec.commandLine().getErr().println(e.getMessage());
            spec.commandLine().getErr().flush();
            return Fairtray.PROBLEM;
        }
        return Fairtray.DONE;
    }

    private void welcome(BenchServer bench) {
        say("On this computer: " + bench.address());
        bench.shared().ifPresent(url -> {
            say("For phones in the same network: " + url);
            say("What phones send isn't encrypted: share only in a network that you trust.");
        });
        if (bench.shared().isEmpty()) {
            say("Only this computer is heard. Start it with --share to count with phones.");
        }
        code(bench, "The bench asks each browser once for a code. This one lets one in: ");
        bench.obstacles().forEach(this::say);
        say("Stop it with Ctrl-C. What is counted is on disk already.");
    }

    private void next(BenchServer bench) {
        code(bench, "One more is in. The code for the next: ");
    }

    private void code(BenchServer bench, String words) {
        say(words + bench.code());
        bench.pairingCode().ifPresent(picture -> {
            say("Or point the phone's camera at this; the page Phones and helpers shows it too.");
            say("");
            say(picture);
        });
    }

    private void say(String line) {
        spec.commandLine().getOut().println(line);
        spec.commandLine().getOut().flush();
    }

    private void tell(Throwable defect) {
        spec.commandLine().getErr().println("A fault of the program; what was kept is safe: " + defect);
        spec.commandLine().getErr().flush();
    }

    /** Opens a browser where there is a desktop; the address is printed anyway. */
    private void open(String address) {
        opener().filter(o -> !noBrowser).ifPresent(words -> {
            try {
                var command = new ArrayList<>(words);
                command.add(address);
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                        .start();
            } catch (IOException e) {
                say("No browser could be opened. Open " + address + " yourself.");
            }
        });
    }

    private static Optional<List<String>> opener() {
        var system = System.getProperty("os.name").toLowerCase(Locale.ROOT);
        if (system.contains("win")) {
            return Optional.of(List.of("rundll32", "url.dll,FileProtocolHandler"));
        }
        if (system.contains("mac")) {
            return Optional.of(List.of("open"));
        }
        boolean desktop = System.getenv("DISPLAY") != null || System.getenv("WAYLAND_DISPLAY") != null;
        return desktop ? Optional.of(List.of("xdg-open")) : Optional.empty();
    }
}
