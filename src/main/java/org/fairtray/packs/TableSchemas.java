package org.fairtray.packs;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.math.BigDecimal;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.fairtray.files.Guard;
import org.fairtray.files.ReadingsFile;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Trial;

/** What the columns of a pack's tables are, as the Table Schema standard says it; units by UCUM, or by the plan. */
final class TableSchemas {
    private static final String SEEDS = "{seed}";
    private static final String DAYS = "d";
    private static final String CENTIMETRES = "cm";

    private final TrialFiles files;
    private final Trial trial;

    TableSchemas(TrialFiles files) {
        this.files = files;
        this.trial = files.trial();
    }

    /** The schema of a table; empty for other files. */
    Optional<JsonObject> of(String name) {
        return switch (name) {
            case PackNames.LAYOUT -> Optional.of(schema(List.of(Place.TRAY), false, layout()));
            case PackNames.FRAMES -> Optional.of(schema(List.of(Place.TRAY, "frame"), true, frames()));
            case PackNames.MOVES -> Optional.of(schema(List.of("day", Place.TRAY), true, moves()));
            case PackNames.READINGS -> Optional.of(readings());
            case PackNames.PHOTOS -> Optional.of(schema(List.of("photo"), true, photos()));
            default -> Optional.empty();
        };
    }

    private static JsonObject schema(List<String> key, boolean ofTrays, Stream<Field> fields) {
        var all = new JsonArray();
        fields.map(Field::json).forEach(all::add);
        var schema = new JsonObject();
        schema.add("fields", all);
        schema.add("missingValues", list(List.of("")));
        schema.add("primaryKey", list(key));
        if (ofTrays) {
            schema.add("foreignKeys", trays());
        }
        return schema;
    }

    /** Every tray that stands here is one of layout.csv. */
    private static JsonElement trays() {
        var reference = new JsonObject();
        reference.addProperty("resource", DescriptionText.name(PackNames.LAYOUT));
        reference.add("fields", list(List.of(Place.TRAY)));
        var key = new JsonObject();
        key.add("fields", list(List.of(Place.TRAY)));
        key.add("reference", reference);
        var keys = new JsonArray();
        keys.add(key);
        return keys;
    }

    private static JsonArray list(List<String> words) {
        var list = new JsonArray();
        words.forEach(list::add);
        return list;
    }

    private static Field tray() {
        return Field.text(Place.TRAY, "Tray", "The code on the tray").required();
    }

    private static Field day(String title, String description) {
        return Field.whole("day", title, description).unit(DAYS).from(0).required();
    }

    private Stream<Field> places() {
        return trial.place().levels().stream()
                .map(l -> Field.whole(l.name(), l.name(), "The number of its " + l.name())
                        .from(1)
                        .upTo(l.count())
                        .required());
    }

    private Stream<Field> layout() {
        var batches = trial.batches().stream()
                .map(b -> Field.whole(
                                b.name(),
                                b.name(),
                                "The number of its " + b.name() + ", which serves one level of " + b.of())
                        .from(1)
                        .upTo(b.count())
                        .required());
        return Stream.of(
                        Stream.of(tray()),
                        places(),
                        batches,
                        trial.factors().stream().map(TableSchemas::factor))
                .flatMap(s -> s);
    }

    private static Field factor(Factor factor) {
        var description = "The level that the tray got, applied to " + factor.appliedTo();
        var field = factor.numeric()
                ? Field.number(factor.name(), factor.name(), description).oneOfNumbers(factor.levels())
                : Field.text(factor.name(), factor.name(), description).oneOf(factor.levels());
        return factor.unit().map(field::unit).orElse(field).required();
    }

    private static Stream<Field> frames() {
        return Stream.of(
                tray(),
                Field.whole("frame", "Frame", "The number of the counting frame in its tray")
                        .from(1)
                        .required(),
                Field.number("left_cm", "From the left", "From the tray's left edge to the frame")
                        .unit(CENTIMETRES)
                        .required(),
                Field.number("front_cm", "From the front", "From the tray's front edge to the frame")
                        .unit(CENTIMETRES)
                        .required());
    }

    private Stream<Field> moves() {
        return Stream.concat(
                Stream.of(day("Day", "Days after sowing, from which on the tray stands there"), tray()), places());
    }

    private static Stream<Field> photos() {
        return Stream.of(
                Field.text("photo", "Photo", "The name of the file in photos").required(),
                tray(),
                day("Day", "Days after sowing"),
                Field.text("words", "Words", "What there is to see"));
    }

    private JsonObject readings() {
        var columns = ReadingsFile.columns(trial, files.readings(), files.noteColumns());
        var key =
                Stream.of(Place.TRAY, "day", "frame").filter(columns::contains).toList();
        return schema(key, true, columns.stream().map(this::reading));
    }

    private Field reading(String column) {
        return switch (column) {
            case Place.TRAY -> tray();
            case "day" -> day("Day", "Days after sowing; sowing is day 0");
            case "frame" ->
                Field.whole(column, "Frame", "The number of the counting frame in its tray")
                        .from(1)
                        .upTo(trial.counting().framesPerTray())
                        .required();
            case "sown" ->
                Field.whole(column, "Sown", "Seeds sown in the frame")
                        .unit(SEEDS)
                        .from(1);
            default -> value(column);
        };
    }

    private Field value(String column) {
        var outcome =
                trial.outcomes().stream().filter(o -> o.name().equals(column)).findFirst();
        boolean usual = column.equals("germinated") || column.equals("through");
        if (usual || outcome.filter(TableSchemas::isCount).isPresent()) {
            var counted = trial.counting().cumulative() ? "Counted so far" : "New since the reading before";
            var definition = trial.definitions().get(column);
            return Field.whole(column, column, counted + (definition == null ? "" : ": " + definition))
                    .unit(SEEDS)
                    .from(0);
        }
        return outcome.isPresent()
                ? Field.number(column, column, "Measured, in the unit that the name gives")
                : Field.text(column, column, "A note");
    }

    private static boolean isCount(Outcome outcome) {
        return outcome.match(count -> true, measure -> false);
    }

    /** One column. Names and words stand as they do in the file, with the apostrophe that guards them there. */
    private record Field(JsonObject json, JsonObject constraints) {

        private static Field of(String name, String type, String title, String description) {
            var json = new JsonObject();
            json.addProperty("name", Guard.add(name));
            json.addProperty("type", type);
            json.addProperty("title", title);
            json.addProperty("description", description);
            return new Field(json, new JsonObject());
        }

        static Field text(String name, String title, String description) {
            return of(name, "string", title, description);
        }

        static Field whole(String name, String title, String description) {
            return of(name, "integer", title, description);
        }

        static Field number(String name, String title, String description) {
            return of(name, "number", title, description);
        }

        Field unit(String unit) {
            json.addProperty("unit", unit);
            return this;
        }

        Field required() {
            constraints.addProperty("required", true);
            json.add("constraints", constraints);
            return this;
        }

        Field from(int least) {
            constraints.addProperty("minimum", least);
            json.add("constraints", constraints);
            return this;
        }

        Field upTo(int most) {
            constraints.addProperty("maximum", most);
            return this;
        }

        Field oneOf(List<String> words) {
            constraints.add("enum", list(words.stream().map(Guard::add).toList()));
            return this;
        }

        Field oneOfNumbers(List<String> numbers) {
            var all = new JsonArray();
            numbers.forEach(n -> all.add(new BigDecimal(n)));
            constraints.add("enum", all);
            return this;
        }
    }
}
