package org.fairtray.packs;

import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.SortedMap;
import org.fairtray.files.Sha256;
import org.fairtray.files.TrialFiles;

/** datapackage.json as it is written, by version 2 of the Data Package standard. */
final class DescriptionText {
    private static final String PROFILE = "https://datapackage.org/profiles/2.0/datapackage.json";
    private static final int LONGEST_NAME = 60;

    /** Format, media type and title of each file. */
    private record Kind(String format, String mediatype, String title) {}

    private static final Map<String, Kind> KINDS = Map.of(
            PackNames.PLAN, new Kind("yaml", "application/yaml", "The plan: what is asked, varied and counted"),
            PackNames.LAYOUT, new Kind("csv", "text/csv", "Where each tray stands and what it gets"),
            PackNames.SEAL, new Kind("json", "application/json", "What plan and layout were when they were drawn"),
            PackNames.FRAMES, new Kind("csv", "text/csv", "Where each counting frame lies in its tray"),
            PackNames.MOVES, new Kind("csv", "text/csv", "Which tray moves where on which day"),
            PackNames.READINGS, new Kind("csv", "text/csv", "What was counted and measured"),
            PackNames.PHOTOS, new Kind("csv", "text/csv", "The photos in the report"),
            PackNames.RESULTS, new Kind("json", "application/json", "Every number of the analysis"),
            PackNames.REPORT, new Kind("html", "text/html", "The analysis for people"));

    private DescriptionText() {}

    /** @param files all others of the pack */
    static byte[] of(PackFile.About about, TrialFiles trial, SortedMap<String, byte[]> files) {
        var json = new JsonObject();
        json.addProperty("$schema", PROFILE);
        json.addProperty(Description.NAME, slug(trial.trial().title()));
        json.addProperty(Description.TITLE, trial.trial().title());
        json.addProperty(
                "description",
                "A germination trial: its plan, its layout and what came of it."
                        + " docs/file-formats.md of fairtray says what each file holds.");
        about.licence().ifPresent(licence -> json.add(Description.LICENCES, licences(licence)));
        json.add(Description.OURS, ours(about));
        var schemas = new TableSchemas(trial);
        var resources = new JsonArray();
        files.forEach((name, bytes) -> resources.add(resource(name, bytes, schemas.of(name))));
        json.add(Description.RESOURCES, resources);
        var gson = new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();
        return (gson.toJson(json) + "\n").getBytes(StandardCharsets.UTF_8);
    }

    private static JsonElement licences(String licence) {
        var one = new JsonObject();
        one.addProperty(Description.NAME, licence);
        var all = new JsonArray();
        all.add(one);
        return all;
    }

    private static JsonElement ours(PackFile.About about) {
        var ours = new JsonObject();
        ours.addProperty(Description.VERSION, about.version());
        about.farm().ifPresent(farm -> ours.addProperty(Description.FARM, farm));
        var leftOut = new JsonArray();
        about.leftOut().forEach(leftOut::add);
        ours.add("left_out", leftOut);
        return ours;
    }

    private static JsonElement resource(String path, byte[] bytes, Optional<JsonObject> schema) {
        var kind = KINDS.getOrDefault(path, new Kind("jpg", "image/jpeg", "A photo"));
        var resource = new JsonObject();
        resource.addProperty(Description.NAME, name(path));
        schema.ifPresent(s -> resource.addProperty("type", "table"));
        resource.addProperty(Description.TITLE, kind.title());
        resource.addProperty(Description.PATH, path);
        resource.addProperty("format", kind.format());
        resource.addProperty("mediatype", kind.mediatype());
        if (!PackNames.photo(path)) {
            resource.addProperty("encoding", "utf-8");
        }
        resource.addProperty(Description.BYTES, bytes.length);
        resource.addProperty(Description.HASH, "sha256:" + Sha256.of(bytes));
        schema.ifPresent(s -> resource.add("schema", s));
        return resource;
    }

    /** The name of a file without its ending, as a resource is called; other tables refer to it. */
    static String name(String path) {
        return path.substring(0, path.lastIndexOf('.')).replace('/', '-').toLowerCase(Locale.ROOT);
    }

    /** A title in letters that any file system and address takes. */
    static String slug(String title) {
        var plain = Normalizer.normalize(title, Normalizer.Form.NFD)
                .toLowerCase(Locale.ROOT)
                .replace("ß", "ss")
                .replace("æ", "ae")
                .replace("ø", "o")
                .replace("ł", "l");
        var words = plain.replaceAll("\\p{M}", "").replaceAll("[^a-z0-9]+", "-").replaceAll("^-+|-+$", "");
        var cut =
                words.length() > LONGEST_NAME ? words.substring(0, LONGEST_NAME).replaceAll("-+$", "") : words;
        return cut.isEmpty() ? "trial" : cut;
    }
}
