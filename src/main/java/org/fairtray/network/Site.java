package org.fairtray.network;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.fairtray.archive.Archive;
import org.fairtray.archive.Listed;
import org.fairtray.archive.Search;
import org.fairtray.archive.SharedTrial;
import org.fairtray.files.NewFile;
import org.fairtray.files.Wording;
import org.fairtray.report.SitePage;
import org.fairtray.report.pages.SiteView;

/**
 * A network's shared trials as a site without scripts, for any web space: lists of trials, the same by crop, factor and
 * medium, a feed, and each trial's report and pack. Reports are made anew from the packs, so that nobody's page but ours is
 * shown.
 */
public final class Site {
    private static final int ON_A_PAGE = 100;
    private static final int MOST_WORDS = 150;

    private final Archive archive;
    private final Path folder;
    private final String title;
    private final String version;
    private final List<Listed> newestFirst;
    private final Map<String, Boolean> reported = new HashMap<>();

    private Site(Archive archive, Path folder, String title, String version, List<Listed> newestFirst) {
        this.archive = archive;
        this.folder = folder;
        this.title = title;
        this.version = version;
        this.newestFirst = newestFirst;
    }

    /** What was written. */
    public record Written(String folder, int trials, int reports, int madeAnew, int pages) {}

    /**
     * Writes the site; what an earlier one left of trials that are no longer there is taken away.
     *
     * @param address where it will be found, for the feed; empty where that isn't known
     * @param progress gets how many trials are done
     */
    public static Written write(
            Archive archive,
            Search search,
            Path folder,
            String title,
            Optional<String> address,
            String version,
            Consumer<Integer> progress) {
        List<Listed> all;
        try (var found = archive.find(search)) {
            all = found.sorted(Comparator.comparing(Listed::added)
                            .reversed()
                            .thenComparing(l -> l.trial().title())
                            .thenComparing(l -> l.trial().id()))
                    .toList();
        }
        var site = new Site(archive, folder, title, version, all);
        return site.write(address, progress);
    }

    private Written write(Optional<String> address, Consumer<Integer> progress) {
        var reports = new SiteReports(archive, folder, version);
        int fresh = 0;
        for (int i = 0; i < newestFirst.size(); i++) {
            var trial = newestFirst.get(i).trial();
            var made = reports.write(trial.id());
            reported.put(trial.id(), made != SiteReports.Made.NONE);
            fresh += made == SiteReports.Made.ANEW ? 1 : 0;
            progress.accept(i + 1);
        }
        reports.takeAwayOthers(newestFirst.stream().map(l -> l.trial().id()).toList());
        var filters = filters();
        int pages = list("index", title, newestFirst, shown(filters));
        for (var filter : filters) {
            for (var word : filter.words.entrySet()) {
                pages += list(
                        filter.file(word.getKey()), filter.heading + ": " + word.getKey(), word.getValue(), List.of());
            }
        }
        put("feed.xml", new Feed(title, address, version).of(newestFirst));
        return new Written(
                folder.toString(),
                newestFirst.size(),
                (int) reported.values().stream().filter(r -> r).count(),
                fresh,
                pages);
    }

    /** Trials by word. */
    private record Filtered(String id, String heading, Map<String, List<Listed>> words) {
        String file(String word) {
            return id + "-" + Slug.of(word);
        }
    }

    private List<Filtered> filters() {
        return List.of(
                filtered("crop", "Crop", t -> Stream.of(t.crop())),
                filtered("factor", "What was varied", t -> t.factors().stream().map(SharedTrial.Varied::name)),
                filtered("medium", "Levels and conditions", Site::media));
    }

    /** Words that something was done with, or that held for all trays; numbers say little without their unit. */
    private static Stream<String> media(SharedTrial trial) {
        return Stream.concat(
                        trial.factors().stream()
                                .flatMap(f -> f.levels().stream()
                                        .map(l -> f.unit()
                                                .map(u -> f.name() + " " + l + " " + u)
                                                .orElse(l))),
                        trial.conditions().stream().map(SharedTrial.Condition::value))
                .filter(w -> !w.matches("[-+.\\d]+"));
    }

    private Filtered filtered(String id, String heading, Function<SharedTrial, Stream<String>> words) {
        var by = new TreeMap<String, List<Listed>>(String.CASE_INSENSITIVE_ORDER);
        newestFirst.forEach(l -> words.apply(l.trial())
                .filter(w -> !w.isBlank())
                .map(String::strip)
                .distinct()
                .forEach(w -> by.computeIfAbsent(w, x -> new ArrayList<>()).add(l)));
        var most = new LinkedHashMap<String, List<Listed>>();
        by.entrySet().stream()
                .sorted(Comparator.comparingInt(
                        (Map.Entry<String, List<Listed>> e) -> -e.getValue().size()))
                .limit(MOST_WORDS)
                .sorted(Map.Entry.comparingByKey(String.CASE_INSENSITIVE_ORDER))
                .forEach(e -> most.put(e.getKey(), e.getValue()));
        return new Filtered(id, heading, most);
    }

    private static List<SiteView.Filter> shown(List<Filtered> filters) {
        return filters.stream()
                .map(f -> new SiteView.Filter(
                        f.id(),
                        f.heading(),
                        f.words().entrySet().stream()
                                .map(w -> new SiteView.Word(
                                        w.getKey(),
                                        f.file(w.getKey()) + ".html",
                                        "(" + w.getValue().size() + ")"))
                                .toList(),
                        f.words().size() < MOST_WORDS ? "" : "The " + MOST_WORDS + " that most trials have."))
                .toList();
    }

    /** A list over as many pages as it takes. */
    private int list(String name, String heading, List<Listed> trials, List<SiteView.Filter> filters) {
        int pages = Math.max(1, (trials.size() + ON_A_PAGE - 1) / ON_A_PAGE);
        for (int page = 0; page < pages; page++) {
            int number = page;
            var links = IntStream.range(0, pages)
                    .mapToObj(p -> new SiteView.Word(Integer.toString(p + 1), p == number ? "" : file(name, p), ""))
                    .toList();
            put(
                    file(name, page),
                    SitePage.of(
                            title,
                            heading,
                            trials.size() == 1 ? "1 trial" : trials.size() + " trials",
                            page == 0 ? filters : List.of(),
                            trials.subList(page * ON_A_PAGE, Math.min(trials.size(), (page + 1) * ON_A_PAGE)).stream()
                                    .map(this::row)
                                    .toList(),
                            links,
                            version));
        }
        return pages;
    }

    private static String file(String name, int page) {
        return name + (page == 0 ? "" : "-page-" + (page + 1)) + ".html";
    }

    private SiteView.Trial row(Listed listed) {
        var trial = listed.trial();
        return new SiteView.Trial(
                trial.title(),
                trial.question(),
                about(trial),
                listed.added().toString().substring(0, 10),
                reported.get(trial.id()) ? SiteReports.report(trial.id()) : "",
                SiteReports.pack(trial.id()));
    }

    private static String about(SharedTrial trial) {
        var words = new ArrayList<String>();
        if (!trial.crop().isEmpty()) {
            words.add(trial.crop());
        }
        words.add(trial.trays()
                + (trial.trays() == 1 ? " tray" : " trays")
                + (trial.sealed() ? ", sealed" : ", not sealed"));
        trial.factors()
                .forEach(f -> words.add(
                        f.name() + f.unit().map(u -> " (" + u + ")").orElse("") + ": " + Wording.list(f.levels())));
        trial.conditions().forEach(c -> words.add(c.name() + ": " + c.value()));
        return String.join("; ", words);
    }

    private void put(String name, String text) {
        var file = folder.resolve(name);
        make(file.getParent());
        NewFile.write(file, text.getBytes(StandardCharsets.UTF_8), true);
    }

    static void make(Path folder) {
        try {
            Files.createDirectories(folder);
        } catch (IOException e) {
            throw SiteReports.refused(folder, "that it can't be made", "a folder of your own");
        }
    }
}
