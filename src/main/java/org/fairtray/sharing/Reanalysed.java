package org.fairtray.sharing;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.fairtray.files.Wording;
import org.fairtray.jobs.Analysed;
import org.fairtray.jobs.Version;
import org.fairtray.packs.Pack;
import org.fairtray.packs.PackNames;
import org.fairtray.packs.StrictJson;

/** Whether results and report are what comes of the pack's readings. */
final class Reanalysed {
    private static final String NUMBERS = "the numbers of the analysis";
    private static final String VERDICTS = "the verdicts";
    private static final String REPORT = "the report";
    private static final String VERSION = "fairtray";
    private static final int SHOWN = 5;

    private static final Pattern PICTURE = Pattern.compile("<svg.*?</svg>", Pattern.DOTALL);
    private static final Pattern MARKS = Pattern.compile("<[^>]*>");

    private final Pack pack;
    private final Deadline deadline;

    Reanalysed(Pack pack, Deadline deadline) {
        this.pack = pack;
        this.deadline = deadline;
    }

    List<Check> checks() {
        boolean results = pack.has(PackNames.RESULTS);
        boolean report = pack.has(PackNames.REPORT);
        if (!results && !report) {
            return List.of(Check.cannotBeTold(
                    NUMBERS,
                    pack.has(PackNames.READINGS)
                            ? "The pack has no results.json and no report.html."
                            : "The pack has no readings and no analysis."));
        }
        var made = deadline.within(() -> Remade.of(pack.files()));
        if (made.isEmpty()) {
            return List.of(deadline.tooLong(NUMBERS));
        }
        return made.get()
                .map(this::against)
                .orElseGet(() -> List.of(Check.differs(NUMBERS, "There are no readings that it could come from.")));
    }

    private List<Check> against(Analysed made) {
        var checks = new ArrayList<Check>();
        boolean sameNumbers = false;
        if (pack.has(PackNames.RESULTS)) {
            checks.addAll(results(made));
            sameNumbers = checks.get(0).verdict().equals(Check.AGREES);
        } else {
            checks.add(Check.cannotBeTold(NUMBERS, "The pack has no results.json."));
        }
        checks.add(
                pack.has(PackNames.REPORT)
                        ? report(made, sameNumbers)
                        : Check.cannotBeTold(REPORT, "The pack has no report.html."));
        return checks;
    }

    private List<Check> results(Analysed made) {
        try {
            var theirs = StrictJson.object(pack.files().get(PackNames.RESULTS));
            var ours = StrictJson.object(made.json().getBytes(StandardCharsets.UTF_8));
            var paths = Differences.between(theirs, ours, Set.of(VERSION));
            var version = version(theirs);
            return List.of(
                    numbers(paths, version), verdicts(verdicts(theirs), verdicts(ours), version.filter(v -> !ours(v))));
        } catch (StrictJson.BadJsonException e) {
            return List.of(Check.differs(NUMBERS, "results.json has " + e.getMessage() + "."));
        }
    }

    private static Optional<String> version(JsonObject results) {
        return Optional.ofNullable(results.get(VERSION))
                .filter(JsonElement::isJsonPrimitive)
                .map(JsonElement::getAsString);
    }

    private static boolean ours(String version) {
        return version.equals(Version.text());
    }

    private static Check numbers(List<String> paths, Optional<String> version) {
        if (paths.isEmpty()) {
            return Check.agrees(NUMBERS, "Analysed again, every number of results.json comes out the same.");
        }
        var where = (paths.size() == 1 ? "1 value differs: " : paths.size() + " values differ: ")
                + paths.stream().limit(SHOWN).map(Wording::quote).collect(Collectors.joining(", "))
                + (paths.size() > SHOWN ? " and " + (paths.size() - SHOWN) + " more." : ".");
        return version.filter(v -> !ours(v))
                .map(v -> Check.cannotBeTold(NUMBERS, byOthers(v, "them") + where))
                .orElseGet(() -> Check.differs(NUMBERS, where));
    }

    private static String byOthers(String version, String what) {
        return "Version " + Wording.quote(version) + " made " + what + ", this is version " + Version.text() + "; ";
    }

    /** Outcome, factor and verdict, each in a line; those on how fast it came out too. */
    private static List<String> verdicts(JsonObject results) {
        return objects(results.get("outcomes"))
                .flatMap(outcome -> Stream.concat(
                        verdicts("", outcome, outcome),
                        outcome.get("speed") instanceof JsonObject speed
                                ? verdicts("speed of ", outcome, speed)
                                : Stream.empty()))
                .toList();
    }

    private static Stream<String> verdicts(String of, JsonObject outcome, JsonObject holder) {
        return objects(holder.get("verdicts"))
                .map(v -> of + outcome.get("name") + ", " + v.get("factor") + ": " + v.get("verdict"));
    }

    private static Stream<JsonObject> objects(JsonElement list) {
        return list instanceof JsonArray array
                ? StreamSupport.stream(array.spliterator(), false)
                        .filter(JsonElement::isJsonObject)
                        .map(JsonElement::getAsJsonObject)
                : Stream.empty();
    }

    private static Check verdicts(List<String> theirs, List<String> ours, Optional<String> otherVersion) {
        if (theirs.equals(ours)) {
            return Check.agrees(
                    VERDICTS, ours.isEmpty() ? "There are none." : "All " + ours.size() + " come out the same.");
        }
        var others = ours.stream()
                .filter(v -> !theirs.contains(v))
                .limit(SHOWN)
                .map(Wording::visible)
                .toList();
        var sentence = "What comes out here is " + String.join("; ", others) + ".";
        return otherVersion
                .map(v -> Check.cannotBeTold(VERDICTS, byOthers(v, "them") + sentence))
                .orElseGet(() -> Check.differs(VERDICTS, sentence));
    }

    private Check report(Analysed made, boolean sameNumbers) {
        var theirs = pack.files().get(PackNames.REPORT);
        var ours = made.html().getBytes(StandardCharsets.UTF_8);
        if (Arrays.equals(theirs, ours)) {
            return Check.agrees(REPORT, "Made again, it comes out the same to the byte.");
        }
        if (!ours(pack.version())) {
            return Check.cannotBeTold(REPORT, byOthers(pack.version(), "it") + "it comes out otherwise here.");
        }
        boolean sameWords = words(new String(theirs, StandardCharsets.UTF_8)).equals(words(made.html()));
        return sameNumbers && sameWords
                ? Check.cannotBeTold(
                        REPORT,
                        "Its words and numbers are the same; its pictures are drawn otherwise, as they are where a computer"
                                + " has other fonts.")
                : Check.differs(REPORT, "Made again, it comes out otherwise.");
    }

    /** A page with its pictures reduced to the words in them. */
    private static String words(String page) {
        return PICTURE.matcher(page)
                .replaceAll(svg ->
                        Matcher.quoteReplacement(MARKS.matcher(svg.group()).replaceAll("\n")));
    }
}
