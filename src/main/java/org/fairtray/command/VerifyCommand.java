package org.fairtray.command;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.packs.PackFile;
import org.fairtray.report.ResultsJson;
import org.fairtray.sharing.Check;
import org.fairtray.sharing.Verification;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        description = "Draws and analyses a pack's trial again and says whether the same comes of it. Writes nothing.")
final class VerifyCommand implements Callable<Integer> {
    @Spec
    private CommandSpec spec;

    @Parameters(paramLabel = "FILE", description = "A trial's pack, a .zip file.")
    private Path file;

    @Option(names = "--json", description = "Print the result as JSON, and nothing else, to standard output.")
    private boolean json;

    /** What came of it, for programs; farm and licence are null where the pack gives none. */
    record Verified(
            String id,
            String trial,
            String version,
            String farm,
            String licence,
            boolean differs,
            List<Check> checks) {}

    @Override
    public Integer call() {
        var pack = PackFile.read(file);
        var verification = Verification.of(pack);
        var out = spec.commandLine().getOut();
        if (json) {
            out.print(ResultsJson.of(new Verified(
                    pack.id(),
                    pack.title(),
                    pack.version(),
                    pack.farm().orElse(null),
                    pack.licence().orElse(null),
                    verification.differs(),
                    verification.checks())));
        } else {
            verification.forPeople(pack).forEach(out::println);
        }
        out.flush();
        return verification.differs() ? Fairtray.PROBLEM : Fairtray.DONE;
    }
}
