package org.fairtray.sheets;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.fairtray.sheets.paper.Flow;
import org.fairtray.sheets.paper.Page;
import org.fairtray.sheets.paper.Style;
import org.fairtray.trial.Cautions;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Place;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Trial;

/** What is done on which day, from the plan; what the plan doesn't say stands as a line to fill in. */
final class Protocol {
    static final String NAME = "Day by day";
    private static final double SIZE = 11;
    private static final double HEADING = 13;
    private static final Set<String> HOURS = Set.of("h", "hr", "hrs", "hour", "hours");
    private static final Set<String> WEIGHTS = Set.of("g", "kg", "lb", "lbs", "oz");

    private final Trial trial;
    private final Desk desk;
    private final Flow flow;

    private Protocol(Desk desk) {
        this.desk = desk;
        trial = desk.trial();
        flow = desk.flow(NAME);
    }

    static List<Page> of(Desk desk) {
        var protocol = new Protocol(desk);
        protocol.writeQuestion();
        protocol.writeBefore();
        protocol.writeSoaking();
        protocol.writeSowing();
        protocol.writeEveryDay();
        protocol.writeDays();
        protocol.writeEnd();
        protocol.writeDefinitions();
        protocol.writeCautions();
        return protocol.flow.pages();
    }

    private void say(String text) {
        flow.paragraph(text, Style.plain(SIZE), 0);
    }

    private void task(String text) {
        flow.task(text, SIZE);
    }

    private void writeQuestion() {
        trial.question().ifPresent(q -> flow.paragraph(q, Style.plain(12).heavy(), 0));
        say(desk.trays().size() + " trays; place: " + trial.place().describe() + ".");
        trial.crop()
                .ifPresent(c -> say(
                        "Seed: " + c.name() + c.seedLot().map(l -> ", lot " + l).orElse("") + "."));
        say(
                "Two people are best: one sows by the key, another counts and never sees it. Whoever works alone closes the key"
                        + " after sowing and opens it when the last tray is counted.");
    }

    private void writeBefore() {
        flow.heading("Before sowing", HEADING);
        task(
                "Print the labels at full size (100 %) and stick one on each tray, at its front edge. Hang up the rack map.");
        task("Mix the seed of the lot well. Weigh it dry, one portion for each tray, all portions alike: "
                + (trial.gramsPerTray().isPresent() ? grams(trial.gramsPerTray().getAsDouble()) : "________")
                + " g."
                + portions());
        if (trial.counting().frame().isPresent()) {
            task(
                    desk.handling().frames().isEmpty()
                            ? "Draw by lot where the counting frames lie in each tray, and mark them there: the folder has no"
                                    + " frames.csv, which would say it."
                            : "Mark the counting frames in each tray as the sheets “" + FrameSheets.NAME + "” say.");
        } else if (trial.counting().framesPerTray() > 1) {
            task("Mark " + trial.counting().framesPerTray()
                    + " counting frames in each tray, away from the rim, at the same places in all trays.");
        }
        trial.batches()
                .forEach(b -> task("Make ready " + b.count() + " × " + b.name() + " for each level of " + b.of()
                        + ". The key says which tray belongs to which."));
    }

    /** What the seeds that are counted weigh, where the plan lets one reckon it. */
    private String portions() {
        Counting counting = trial.counting();
        var weight = trial.crop().map(Crop::thousandSeedWeight).filter(w -> w.isPresent());
        if (weight.isEmpty()) {
            return "";
        }
        int seeds = counting.framesPerTray() * counting.seedsPerFrame();
        return " (The " + seeds + " seeds that are counted in a tray weigh about "
                + grams(seeds * weight.get().getAsDouble() / 1000) + " g.)";
    }

    private static String grams(double grams) {
        return String.format(Locale.ROOT, "%.2f", grams);
    }

    /** A factor whose name says soaking and whose levels are hours. */
    static boolean isSoaking(Factor factor) {
        var name = factor.name().toLowerCase(Locale.ROOT);
        return name.contains("soak") && factor.numeric() && hasUnit(factor, HOURS);
    }

    private static boolean hasUnit(Factor factor, Set<String> units) {
        return factor.unit()
                .filter(u -> units.contains(u.toLowerCase(Locale.ROOT)))
                .isPresent();
    }

    private void writeSoaking() {
        for (var factor : trial.factors()) {
            if (!isSoaking(factor)) {
                continue;
            }
            flow.heading("Soaking (" + factor.name() + ")", HEADING);
            factor.levels().stream()
                    .filter(l -> Double.parseDouble(l) > 0)
                    .sorted(Comparator.comparingDouble(Double::parseDouble).reversed())
                    .forEach(l -> task(l + " hours before sowing: cover the seed for " + factor.describe(l)
                            + " with drinking water. Date ____________ time ________"));
            task("When sowing begins: drain and rinse all soaked seed alike. Dry seed is handled for as long.");
        }
    }

    private void writeSowing() {
        flow.heading("Day 0: sow", HEADING);
        task("Date ____________ time ________ sown by ______________________");
        task("Open the key. Sow tray by tray in its order, each tray the same portion, spread evenly.");
        for (var factor : trial.factors()) {
            if (isSoaking(factor)) {
                task("Into each tray the seed that was soaked as its line in the key says.");
            } else if (hasUnit(factor, WEIGHTS)) {
                task("Weight: " + factor.name() + " (" + levels(factor) + ") on " + unit(factor)
                        + ", as the key says, on a flat stiff plate that touches the seed everywhere.");
            } else {
                task(factor.name() + " (" + levels(factor) + "): for " + unit(factor) + ", as the key says.");
            }
        }
        task("Put each tray where the rack map has its code. Water every tray alike: ________ ml.");
        task("Close the key. Fold or staple it shut and put it away.");
    }

    private static String levels(Factor factor) {
        return factor.levels().stream().map(factor::describe).collect(Collectors.joining(", "));
    }

    private String unit(Factor factor) {
        var level = trial.appliedLevel(factor);
        return level.equals(Place.TRAY) ? "each tray" : "each whole " + level;
    }

    private void writeEveryDay() {
        flow.heading("Every day", HEADING);
        task("Water every tray alike, by weight or by measure, in walking order. Ordinary amount: ________ ml.");
        task(
                trial.rotation().isEmpty()
                        ? "Put every tray back in its own place. Don’t move or turn some trays and not others."
                        : "Put every tray back where it stands that day. Don’t turn some trays and not others.");
        if (trial.uncoverDay().isEmpty()) {
            task("Weights and covers off, and into light: day ______, the same for all trays but where the key says"
                    + " otherwise.");
        }
    }

    private void writeDays() {
        var counting = trial.counting().days();
        var moving = trial.rotation().map(Rotation::days).orElse(List.of());
        var days = new TreeSet<>(counting);
        days.addAll(moving);
        trial.uncoverDay().ifPresent(days::add);
        int before = -1;
        for (int day : days) {
            var jobs = new ArrayList<String>();
            jobs.addAll(moving.contains(day) ? List.of("move") : List.of());
            jobs.addAll(uncovers(day) ? List.of("uncover") : List.of());
            jobs.addAll(counting.contains(day) ? List.of("count") : List.of());
            flow.heading("Day " + day + ": " + String.join(", ", jobs), HEADING);
            if (moving.contains(day)) {
                writeMoving(day);
            }
            if (uncovers(day)) {
                task(
                        "Weights and covers off for good, and into light: all trays within the hour, but where the key says"
                                + " otherwise. Date ____________ time ________");
            }
            if (counting.contains(day)) {
                writeCounting(day, before);
                before = day;
            }
        }
    }

    private boolean uncovers(int day) {
        return trial.uncoverDay().isPresent() && trial.uncoverDay().getAsInt() == day;
    }

    private void writeMoving(int day) {
        var level = trial.rotation().orElseThrow().level();
        task(
                desk.handling().movingDays().contains(day)
                        ? "Before anything else: carry the trays to their new " + level + " as the sheets “"
                                + MoveSheets.name(day)
                                + "” say. Have an empty place ready beside the rack for one tray. Date ____________"
                        : "Before anything else: carry every tray to another " + level
                                + ". The folder has no rotation.csv, which would say where: write down which tray went"
                                + " where. Date ____________");
    }

    private void writeCounting(int day, int before) {
        task("Date ____________ time ________ counted by ______________________");
        task("On the sheets “" + CountingSheets.name(day) + "”: "
                + String.join(", ", CountingSheets.columns(trial, day)) + ". " + frames()
                + (before >= 0 ? counted(before) : ""));
        trial.outcomes().stream().filter(o -> o.day() == day).forEach(o -> say("Today decides for: " + o.name() + "."));
    }

    private void writeEnd() {
        flow.gap(2.5);
        task(
                "Write the counts into readings.csv and run: fairtray check. Keep the trays until it finds nothing wrong.");
        task("Open the key again, and run: fairtray analyse.");
    }

    private String frames() {
        int frames = trial.counting().framesPerTray();
        return frames == 1 ? "Whole trays." : "Frames 1 to " + frames + " of every tray.";
    }

    private String counted(int before) {
        return trial.counting().cumulative()
                ? " All so far, not only what came since day " + before + "."
                : " Only what came since day " + before + "; mark or take out what is counted, as you did then.";
    }

    private void writeDefinitions() {
        if (trial.definitions().isEmpty()) {
            return;
        }
        flow.heading("What counts as what", HEADING);
        trial.definitions().forEach((name, text) -> say(name + ": " + text + "."));
    }

    private void writeCautions() {
        flow.heading("Cautions", HEADING);
        var cautions = new ArrayList<>(Cautions.ALL);
        IntStream.range(0, cautions.size()).forEach(i -> {
            flow.gap(0.8);
            flow.paragraph((i + 1) + ". " + cautions.get(i), Style.plain(9.5), 0);
        });
    }
}
