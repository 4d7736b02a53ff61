package org.fairtray.archive;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;

/** An archive used by a virtual machine of its own. */
final class OtherProgram {
    private OtherProgram() {}

    static Process start(String memory, String... arguments) throws IOException {
        var command = new ArrayList<>(List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                memory,
                "-cp",
                System.getProperty("java.class.path"),
                OtherProgram.class.getName()));
        command.addAll(List.of(arguments));
        return new ProcessBuilder(command).redirectErrorStream(true).start();
    }

    /** What it said, once it has ended well. */
    static String said(Process program) throws IOException, InterruptedException {
        try (var out = program.getInputStream()) {
            var said = new String(out.readAllBytes(), StandardCharsets.UTF_8).strip();
            assertEquals(0, program.waitFor(), said);
            return said;
        }
    }

    /** {@code add ADDRESS N} says how many of N trials it added, {@code read ADDRESS} how many it read. */
    public static void main(String[] args) {
        if (args[0].equals("read")) {
            try (var archive = Archive.existing(args[1])) {
                long read = archive.contributions(Search.all())
                        .filter(b -> b.text().length() > 1)
                        .count();
                System.out.println(read);
            }
            return;
        }
        var added = new AtomicInteger();
        try (var archive = Archive.open(args[1])) {
            var deposits = IntStream.range(0, Integer.parseInt(args[2])).mapToObj(Deposits::numbered);
            archive.addAll(deposits.limit(50), false, (trial, kept) -> added.addAndGet(kept == Kept.ADDED ? 1 : 0));
            IntStream.range(50, Integer.parseInt(args[2]))
                    .mapToObj(Deposits::numbered)
                    .forEach(d -> added.addAndGet(archive.add(d) == Kept.ADDED ? 1 : 0));
        }
        System.out.println(added);
    }
}
