package org.fairtray.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.fairtray.trial.Area;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/** A trial written as plan.yaml; read back it is the same trial. */
public final class PlanText {
    private final List<String> lines = new ArrayList<>();

    private PlanText() {}

    /**
     * The text of a plan.
     *
     * @param remarks lines for its head, without the #
     */
    public static String of(Trial trial, List<String> remarks) {
        var text = new PlanText();
        remarks.forEach(r -> text.lines.add("# " + r));
        text.head(trial);
        text.list("factors", trial.factors().stream().map(PlanText::factor).toList());
        if (!trial.control().levels().isEmpty()) {
            text.lines.add("control: " + treatment(trial.control()));
        }
        if (!trial.never().isEmpty()) {
            text.list("never", trial.never().stream().map(PlanText::treatment).toList());
        }
        text.list("place", trial.place().levels().stream().map(PlanText::level).toList());
        if (!trial.definitions().isEmpty()) {
            text.lines.add("definitions: " + map(trial.definitions()));
        }
        if (!trial.batches().isEmpty()) {
            text.list(
                    "batches",
                    trial.batches().stream()
                            .map(b -> "{name: " + quoted(b.name()) + ", of: " + quoted(b.of()) + ", count: " + b.count()
                                    + "}")
                            .toList());
        }
        if (!trial.restrictions().isEmpty()) {
            text.list(
                    "restrictions",
                    trial.restrictions().stream().map(PlanText::restriction).toList());
        }
        trial.replicates().ifPresent(r -> text.lines.add("replicates: " + r));
        text.counting(trial);
        text.list("outcomes", trial.outcomes().stream().map(PlanText::outcome).toList());
        if (!trial.conditions().isEmpty()) {
            text.lines.add("conditions: " + levels(trial.conditions()));
        }
        text.choices(trial);
        return String.join("\n", text.lines) + "\n";
    }

    private void head(Trial trial) {
        lines.add("format: 1");
        lines.add("trial: " + quoted(trial.title()));
        trial.question().ifPresent(q -> lines.add("question: " + quoted(q)));
        trial.crop().ifPresent(c -> lines.add("crop: " + crop(c)));
    }

    private void list(String key, List<String> items) {
        lines.add(key + ":");
        items.forEach(i -> lines.add("  - " + i));
    }

    private void counting(Trial trial) {
        var counting = trial.counting();
        lines.add("counting: {days: " + counting.days() + ", frames_per_tray: " + counting.framesPerTray()
                + ", seeds_per_frame: " + counting.seedsPerFrame() + ", counts: "
                + (counting.cumulative() ? "cumulative" : "new")
                + counting.tray().map(t -> ", tray_cm: " + sides(t)).orElse("")
                + counting.frame().map(a -> ", frame_cm: " + sides(a)).orElse("")
                + (counting.margin() > 0 ? ", margin_cm: " + counting.margin() : "") + "}");
        trial.gramsPerTray().ifPresent(g -> lines.add("sowing: {grams_per_tray: " + g + "}"));
        trial.rotation()
                .ifPresent(r -> lines.add("rotation: {level: " + quoted(r.level()) + ", days: " + r.days() + "}"));
        trial.uncoverDay().ifPresent(d -> lines.add("handling: {uncover_day: " + d + "}"));
    }

    private static String sides(Area area) {
        return "[" + area.across() + ", " + area.deep() + "]";
    }

    private void choices(Trial trial) {
        var choices = trial.choices();
        lines.add("analysis: {alpha: " + choices.alpha() + ", interactions: " + choices.interactions()
                + ", anova_scale: " + choices.scale().label() + "}");
        if (!trial.expectations().equals(Expectations.none())) {
            lines.add("expect: " + expect(trial.expectations()));
        }
        trial.costs()
                .ifPresent(c -> lines.add("costs: "
                        + map(List.of(
                                text("currency", c.currency()),
                                number("tray", c.tray()),
                                number("seed_per_g", c.seedPerGram()),
                                number("labour_per_hour", c.labourPerHour()),
                                number("minutes_per_frame", c.minutesPerFrame())))));
    }

    private static String crop(Crop crop) {
        return map(List.of(
                text("name", Optional.of(crop.name())),
                text("seed_lot", crop.seedLot()),
                number("thousand_seed_weight_g", crop.thousandSeedWeight()),
                crop.seedsPerUnit().isPresent()
                        ? Optional.of("seeds_per_unit: " + crop.seedsPerUnit().getAsInt())
                        : Optional.empty()));
    }

    private static String factor(Factor factor) {
        return map(List.of(
                text("name", Optional.of(factor.name())),
                text("unit", factor.unit()),
                Optional.of("levels: ["
                        + factor.levels().stream().map(PlanText::level).collect(Collectors.joining(", ")) + "]"),
                text("applied_to", Optional.of(factor.appliedTo()))));
    }

    private static String level(Place.Level level) {
        return map(List.of(
                text("name", Optional.of(level.name())),
                Optional.of("count: " + level.count()),
                text("across", level.across())));
    }

    private static String restriction(Restriction restriction) {
        return restriction
                .over()
                .map(l -> map(List.of(
                        text(restriction.kind().key(), Optional.of(l)), text("of", Optional.of(restriction.of())))))
                .orElseGet(() -> map(List.of(text(restriction.kind().key(), Optional.of(restriction.of())))));
    }

    private static String outcome(Outcome outcome) {
        String name = "{name: " + quoted(outcome.name());
        return name
                + outcome.match(c -> ", kind: count, of: " + c.of(), m -> ", kind: measure")
                + ", day: " + outcome.day() + "}";
    }

    private static String expect(Expectations expected) {
        var placeSd = expected.placeSd().isEmpty()
                ? Optional.<String>empty()
                : Optional.of("place_sd: {"
                        + expected.placeSd().entrySet().stream()
                                .map(e -> quoted(e.getKey()) + ": " + e.getValue())
                                .collect(Collectors.joining(", "))
                        + "}");
        return map(List.of(
                number("control_rate", expected.controlRate()),
                number("worthwhile", expected.worthwhile()),
                number("tray_correlation", expected.trayCorrelation()),
                placeSd,
                number("power", expected.power())));
    }

    private static String treatment(Treatment treatment) {
        return levels(treatment.levels());
    }

    private static String levels(Map<String, String> levels) {
        return "{"
                + levels.entrySet().stream()
                        .map(e -> quoted(e.getKey()) + ": " + level(e.getValue()))
                        .collect(Collectors.joining(", "))
                + "}";
    }

    private static String map(Map<String, String> texts) {
        return "{"
                + texts.entrySet().stream()
                        .map(e -> quoted(e.getKey()) + ": " + quoted(e.getValue()))
                        .collect(Collectors.joining(", "))
                + "}";
    }

    private static String map(List<Optional<String>> entries) {
        return "{" + entries.stream().flatMap(Optional::stream).collect(Collectors.joining(", ")) + "}";
    }

    private static Optional<String> text(String key, Optional<String> value) {
        return value.map(v -> key + ": " + quoted(v));
    }

    private static Optional<String> number(String key, OptionalDouble value) {
        return value.isPresent() ? Optional.of(key + ": " + value.getAsDouble()) : Optional.empty();
    }

    /** A plain number as it was written, so that it is seen to be one; any other level in quotes. */
    private static String level(String level) {
        return level.matches("-?\\d+(\\.\\d+)?") ? level : quoted(level);
    }

    /** In quotes unless it is a word that YAML can't take for anything else. */
    static String quoted(String text) {
        if (text.matches("(?!(?i:null)$)[A-Za-z_]\\w*")) {
            return text;
        }
        var quoted = new StringBuilder("\"");
        text.codePoints().forEach(c -> {
            if (c == '"' || c == '\\') {
                quoted.append('\\').appendCodePoint(c);
            } else if (c < ' ' || c == 0x7f || (c >= 0x80 && c < 0xa0) || c == 0x2028 || c == 0x2029 || c == 0xfeff) {
                quoted.append(String.format("\\u%04x", c));
            } else {
                quoted.appendCodePoint(c);
            }
        });
        return quoted + "\"";
    }
}
