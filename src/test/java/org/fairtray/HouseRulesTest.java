package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** What holds for every file of the repository. */
class HouseRulesTest {
    private static final Path TOP = Path.of("");
    private static final int MOST_LINES = 400;
    private static final Set<String> TOP_LEVEL =
            Set.of("README.md", "DEVELOPERS.md", "LICENSE", "pom.xml", "src", "designs", "datasets", "docs", "target");

    /** Written in halves, so that this file doesn't contain them itself. */
    private static final List<String> NOT_OURS =
            List.of("shared/" + "reference", "seed " + "document", "trade" + "-facts", "TODO" + ":", "FIX" + "ME");

    private static final Pattern LINK = Pattern.compile("\\]\\(([^)#]+)(#[^)]*)?\\)");

    private static List<Path> files(Path under) throws IOException {
        try (Stream<Path> files = Files.walk(under)) {
            return files.filter(Files::isRegularFile)
                    .filter(f -> !f.startsWith("target") && !f.startsWith(".git"))
                    .toList();
        }
    }

    /** The text of a file; in a binary one, its bytes as letters. */
    private static String text(Path file) {
        try {
            return new String(Files.readAllBytes(file), StandardCharsets.ISO_8859_1);
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }

    @Test
    void noSourceFileIsLongerThanFourHundredLines() throws IOException {
        var sources = files(Path.of("src")).stream()
                .filter(f -> f.toString().matches(".*\\.(java|jte|css|js)"))
                .toList();
        assertTrue(sources.size() > 100, sources::toString);
        var tooLong = sources.stream()
                .filter(f -> text(f).lines().count() > MOST_LINES)
                .toList();
        assertEquals(List.of(), tooLong);
    }

    @Test
    void nothingSpeaksOfWhatIsNotInTheRepository() throws IOException {
        var found = new ArrayList<String>();
        for (var file : files(TOP)) {
            var text = text(file).toLowerCase(Locale.ROOT);
            NOT_OURS.stream()
                    .filter(w -> text.contains(w.toLowerCase(Locale.ROOT)))
                    .forEach(w -> found.add(file + ": " + w));
        }
        assertEquals(List.of(), found);
    }

    /** A reader who follows the README has trials of her own beside it: the demo's, and the one of the walk. */
    @Test
    void theTopLevelHoldsOnlyWhatItShould() throws IOException {
        try (Stream<Path> entries = Files.list(Path.of("."))) {
            var others = entries.filter(e -> !Files.exists(e.resolve("plan.yaml")))
                    .map(e -> e.getFileName().toString())
                    .filter(n -> !n.startsWith(".") && !TOP_LEVEL.contains(n))
                    .collect(Collectors.toCollection(TreeSet::new));
            assertEquals(Set.of(), others);
        }
    }

    @Test
    void everyDecisionIsListed() throws IOException {
        var folder = Path.of("docs/decisions");
        var records = files(folder).stream()
                .map(f -> f.getFileName().toString())
                .filter(n -> !n.equals("README.md"))
                .collect(Collectors.toCollection(TreeSet::new));
        assertTrue(records.stream().allMatch(n -> n.matches("\\d{4}-[a-z0-9-]+\\.md")), records::toString);
        assertEquals(
                records,
                links(folder.resolve("README.md")).stream()
                        .filter(l -> !l.contains("/"))
                        .collect(Collectors.toCollection(TreeSet::new)));
    }

    @Test
    void everyDataSetIsListed() throws IOException {
        var folder = Path.of("datasets");
        var table = text(folder.resolve("README.md"));
        try (Stream<Path> sets = Files.list(folder)) {
            var missing = sets.filter(Files::isDirectory)
                    .map(s -> s.getFileName().toString())
                    .filter(n -> !table.contains("| `" + n + "` |"))
                    .toList();
            assertEquals(List.of(), missing);
        }
    }

    @Test
    void everyLinkInTheDocumentsLeadsToAFile() throws IOException {
        var broken = new ArrayList<String>();
        int links = 0;
        for (var page : files(TOP)) {
            if (page.toString().endsWith(".md")) {
                for (var link : links(page)) {
                    links++;
                    var target = page.toAbsolutePath().resolveSibling(link).normalize();
                    if (!link.startsWith("https://") && !Files.exists(target)) {
                        broken.add(page + ": " + link);
                    }
                }
            }
        }
        assertTrue(links > 10, "only " + links + " links were found");
        assertEquals(List.of(), broken);
    }

    private static List<String> links(Path page) {
        return LINK.matcher(text(page))
                .results()
                .map((MatchResult r) -> r.group(1))
                .toList();
    }
}
