package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.fail;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.fairtray.report.ResultsJson;
import org.junit.jupiter.api.function.Executable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Whole trials against the numbers of other programs; each folder's expected.json says which, and how near. */
class ReferenceDataTest {
    /** The parts of an outcome that are held against the references; those of parts that don't exist yet are not here. */
    private static final List<String> COMPARED =
            List.of("summary[", "anova.", "logistic.fits.", "rerandomisation[", "speed.", "trays", "left_out");

    static List<String> folders() {
        return Datasets.names();
    }

    @ParameterizedTest
    @MethodSource("folders")
    void agreesWithTheReference(String folder) throws IOException {
        var expected = JsonParser.parseString(
                        Files.readString(Datasets.folder(folder).resolve("expected.json")))
                .getAsJsonObject();
        var results =
                JsonParser.parseString(ResultsJson.of(Datasets.analyse(folder))).getAsJsonObject();
        var checks = compared(expected, "checks");
        var strings = compared(expected, "strings");
        assertFalse(checks.isEmpty(), "nothing is compared");
        assertAll(Stream.concat(
                checks.stream().map(c -> number(c, results)), strings.stream().map(s -> text(s, results))));
    }

    private static List<JsonObject> compared(JsonObject expected, String kind) {
        if (!expected.has(kind)) {
            return List.of();
        }
        return StreamSupport.stream(expected.getAsJsonArray(kind).spliterator(), false)
                .map(JsonElement::getAsJsonObject)
                .filter(c -> {
                    String inOutcome = path(c).replaceFirst("^outcomes\\[name=[^\\]]*\\]\\.", "");
                    return COMPARED.stream().anyMatch(inOutcome::startsWith);
                })
                .toList();
    }

    private static String path(JsonObject check) {
        return check.get("path").getAsString();
    }

    private static Executable number(JsonObject check, JsonObject results) {
        return () -> {
            double value = check.get("value").getAsDouble();
            double absolute = check.has("abs") ? check.get("abs").getAsDouble() : 0;
            double most = Math.max(check.get("rel").getAsDouble() * Math.abs(value), absolute);
            var found = ResultsPath.of(path(check)).in(results);
            boolean isNumber = found.isPresent()
                    && found.get().isJsonPrimitive()
                    && found.get().getAsJsonPrimitive().isNumber();
            if (!isNumber || Math.abs(found.get().getAsDouble() - value) > most) {
                fail(path(check) + ": expected " + value + " by "
                        + check.get("with").getAsString() + ", found "
                        + found.map(JsonElement::toString).orElse("nothing"));
            }
        };
    }

    private static Executable text(JsonObject check, JsonObject results) {
        return () -> assertEquals(
                check.get("value"), ResultsPath.of(path(check)).in(results).orElse(null), path(check));
    }
}
