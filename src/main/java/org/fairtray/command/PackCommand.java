package org.fairtray.command;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.fairtray.files.Nearest;
import org.fairtray.files.NewFile;
import org.fairtray.files.PhotoFolder;
import org.fairtray.packs.PackFile;
import org.fairtray.sharing.Keep;
import org.fairtray.sharing.LeftOut;
import org.fairtray.sharing.PackOptions;
import org.fairtray.sharing.Packing;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

@Command(
        name = "pack",
        mixinStandardHelpOptions = true,
        description = "Makes one file of a trial to share, with what is personal left out; says what that is first.")
final class PackCommand implements Callable<Integer> {
    @Mixin
    private TrialOptions trial;

    @Option(
            names = "--with",
            paramLabel = "WHAT",
            description =
                    "Let go along what is left out otherwise: by (who counted), notes, times, photos. May be given"
                            + " several times.")
    private List<String> with = List.of();

    @Option(
            names = "--farm",
            paramLabel = "CODE",
            description = "A code that tells which packs are from one farm; none is given otherwise.")
    private String farm;

    @Option(
            names = "--licence",
            paramLabel = "ID",
            description = "The SPDX name of the licence under which others may use it, such as CC-BY-4.0.")
    private String licence;

    @Option(names = "--to", paramLabel = "FILE", description = "Where to write it; else beside the trial's folder.")
    private Path to;

    @Option(names = "--replace", description = "Replace a file that is there already.")
    private boolean replace;

    @Option(names = "--dry-run", description = "Only say what would be left out; write nothing.")
    private boolean dryRun;

    /** What was packed, for programs; file is null where nothing was written. */
    record Packed(
            String trial,
            String file,
            List<String> files,
            List<LeftOutItem> leftOut,
            String never,
            List<String> notices) {}

    /** What stays at home, for programs; with is the word that would let it go along. */
    record LeftOutItem(String what, String with) {
        static LeftOutItem of(LeftOut item) {
            return new LeftOutItem(item.what(), item.keep().word());
        }
    }

    @Override
    public Integer call() {
        var options = new PackOptions(kept(), code("--farm", farm), code("--licence", licence));
        var packing = Packing.of(trial.folder(), new PhotoFolder(trial.path()), options);
        var file = to == null ? beside(PackFile.nameFor(packing.title())) : to;
        if (!dryRun) {
            NewFile.refuse(file, replace);
        }
        if (!trial.json()) {
            packing.forPeople().forEach(trial.out()::println);
            trial.out().flush();
        }
        var lines = new ArrayList<String>();
        if (dryRun) {
            lines.add("Nothing was written.");
        } else {
            NewFile.write(file, packing.pack(), replace);
            lines.add("Written: " + file + ".");
        }
        trial.print(packed(packing, file), lines);
        return Fairtray.DONE;
    }

    private Packed packed(Packing packing, Path file) {
        return new Packed(
                packing.title(),
                dryRun ? null : file.toString(),
                List.copyOf(packing.files().keySet()),
                packing.leftOut().stream().map(LeftOutItem::of).toList(),
                Packing.NEVER,
                packing.notices());
    }

    private Set<Keep> kept() {
        var kept = EnumSet.noneOf(Keep.class);
        for (var word : with) {
            kept.add(Keep.of(word).orElseThrow(() -> {
                var nearest = Nearest.to(word, Keep.words()).map(n -> "; nearest: " + n);
                return wrong(
                        "--with " + word + ": expected one of " + String.join(", ", Keep.words()) + nearest.orElse(""));
            }));
        }
        return kept;
    }

    private Optional<String> code(String option, String code) {
        if (code != null && !PackFile.About.isCode(code)) {
            throw wrong(option + " " + code + ": expected 1 to 40 letters, digits, '.', '_' or '-'");
        }
        return Optional.ofNullable(code);
    }

    private ParameterException wrong(String message) {
        return new ParameterException(trial.commandLine(), message);
    }

    /** As the folder was typed, where it was typed with its name. */
    private Path beside(String name) {
        var folder = trial.path().normalize();
        boolean named = !folder.toString().isEmpty() && !folder.endsWith("..");
        return named
                ? folder.resolveSibling(name)
                : folder.toAbsolutePath().normalize().resolveSibling(name);
    }
}
