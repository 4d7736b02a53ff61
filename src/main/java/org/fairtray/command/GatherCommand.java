package org.fairtray.command;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.concurrent.Callable;
import org.fairtray.files.TrialFiles;
import org.fairtray.jobs.Gather;
import org.fairtray.packs.PackFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

@Command(
        name = "gather",
        mixinStandardHelpOptions = true,
        description = "Brings what farms counted of a trial that was split back into its folder.")
final class GatherCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Parameters(
            index = "1..*",
            arity = "1..*",
            paramLabel = "PART",
            description = "Folders that split made, or packs of them.")
    private List<Path> parts;

    @Override
    public Integer call() {
        var read = new LinkedHashMap<String, TrialFiles>();
        parts.forEach(p -> read.put(p.toString(), read(p)));
        var gathered = Gather.of(trial.folder(), read);
        trial.print(gathered, gathered.forPeople());
        return Fairtray.DONE;
    }

    private static TrialFiles read(Path part) {
        return Files.isDirectory(part)
                ? TrialOptions.ofSeveral(part, files -> files)
                : PackFile.read(part).trial();
    }
}
