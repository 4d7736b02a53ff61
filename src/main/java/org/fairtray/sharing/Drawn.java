package org.fairtray.sharing;

import java.util.ArrayList;
import java.util.List;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.design.FrameDraw;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.design.RotationSchedule;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.Wording;
import org.fairtray.jobs.Needed;
import org.fairtray.jobs.Version;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Seal;

/** Whether plan and layout are those of the seal, and whether its seed draws this layout and no other. */
final class Drawn {
    private static final String LAYOUT = "the layout";
    private static final String FRAMES = "the frames";
    private static final String MOVES = "the moves";

    private final TrialFiles files;
    private final Deadline deadline;

    Drawn(TrialFiles files, Deadline deadline) {
        this.files = files;
        this.deadline = deadline;
    }

    List<Check> checks() {
        var checks = new ArrayList<Check>();
        checks.add(seal());
        files.layout()
                .ifPresent(layout -> checks.addAll(files.seal()
                        .map(seal -> again(layout, seal))
                        .orElseGet(() -> List.of(Check.cannotBeTold(
                                LAYOUT,
                                "Without a seal nobody can say by which seed it was drawn, or whether it was.")))));
        return checks;
    }

    private Check seal() {
        var what = "the seal";
        if (files.layout().isEmpty() && files.seal().isEmpty()) {
            return Check.cannotBeTold(what, "There is no layout to seal: the pack is a protocol.");
        }
        var sentence = Needed.sealing(files).sentence();
        return switch (files.sealState()) {
            case HOLDS -> Check.agrees(what, "Plan and layout are those that were sealed.");
            case ABSENT -> Check.cannotBeTold(what, sentence);
            case PLAN_CHANGED, LAYOUT_CHANGED, BOTH_CHANGED, FRAMES_CHANGED, MOVES_CHANGED, FRAMES_AND_MOVES_CHANGED ->
                Check.differs(what, sentence);
        };
    }

    /** Draws again, once for all that was drawn, and says of each whether the same came of it. */
    private List<Check> again(Layout layout, Seal seal) {
        var drawn = drawn(seal);
        if (!seal.generator().equals(Generator.NAME)) {
            return drawn.stream()
                    .map(what -> Check.cannotBeTold(
                            what,
                            "It was drawn by " + Wording.quote(seal.generator())
                                    + ", which this version doesn't have."))
                    .toList();
        }
        return deadline.within(() -> drawnAgain(drawn, layout, seal))
                .orElseGet(() -> drawn.stream().map(deadline::tooLong).toList());
    }

    /** Only what is there is drawn again: a plan can ask for more frames and moves than there is room for. */
    private List<String> drawn(Seal seal) {
        var drawn = new ArrayList<>(List.of(LAYOUT));
        if (!files.handling().frames().isEmpty() || seal.framesSha256().isPresent()) {
            drawn.add(FRAMES);
        }
        if (!files.handling().moves().isEmpty() || seal.movesSha256().isPresent()) {
            drawn.add(MOVES);
        }
        return drawn;
    }

    private List<Check> drawnAgain(List<String> drawn, Layout layout, Seal seal) {
        try {
            var whole = Randomisation.of(files.trial()).draw(Generator.of(seal.seed()));
            return drawn.stream()
                    .map(what -> drawnAgain(what, same(what, layout, whole, seal.seed()), seal))
                    .toList();
        } catch (DoesNotFitException e) {
            return drawn.stream()
                    .map(what -> Check.differs(
                            what,
                            "The plan in the pack can't be laid out at all: "
                                    + Wording.visible(e.reasons().get(0))))
                    .toList();
        }
    }

    private static Check drawnAgain(String what, boolean same, Seal seal) {
        var from = "from plan and seed " + seal.seed();
        if (same) {
            return Check.agrees(what, "Drawn again " + from + ": the same.");
        }
        return seal.version().equals(Version.text())
                ? Check.differs(what, "Drawn again " + from + ": something else.")
                : Check.cannotBeTold(
                        what,
                        "Drawn again " + from + " by version " + Version.text() + ": something else. Version "
                                + Wording.quote(seal.version()) + " drew it, and may have drawn in another way.");
    }

    /** @param whole what comes of the plan and the seed, of which the pack's layout may be a farm's part */
    private boolean same(String what, Layout layout, Layout whole, long seed) {
        return switch (what) {
            case FRAMES ->
                FrameDraw.of(files.trial(), whole, seed).stream()
                        .filter(f -> has(layout, f.tray()))
                        .toList()
                        .equals(files.handling().frames());
            case MOVES ->
                RotationSchedule.of(files.trial(), whole, seed).stream()
                        .filter(m -> has(layout, m.tray()))
                        .toList()
                        .equals(files.handling().moves());
            default -> whole.trays().equals(layout.trays()) || isPart(layout, whole);
        };
    }

    private static boolean has(Layout layout, String tray) {
        return layout.trays().stream().anyMatch(t -> t.code().equals(tray));
    }

    /** Whether it is what one unit of a place level got: a farm's part of a trial that several sow together. */
    private boolean isPart(Layout layout, Layout drawn) {
        var place = files.trial().place();
        return place.names().stream().anyMatch(level -> {
            var units = layout.trays().stream()
                    .map(t -> place.unit(level, t.stand()))
                    .distinct()
                    .toList();
            return units.size() == 1
                    && drawn.trays().stream()
                            .filter(t -> place.unit(level, t.stand()).equals(units.get(0)))
                            .toList()
                            .equals(layout.trays());
        });
    }
}
