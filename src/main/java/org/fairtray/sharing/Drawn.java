package org.fairtray.sharing;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
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
    private final TrialFiles files;
    private final Deadline deadline;

    Drawn(TrialFiles files, Deadline deadline) {
        this.files = files;
        this.deadline = deadline;
    }

    List<Check> checks() {
        var checks = new ArrayList<Check>();
        checks.add(seal());
        files.layout().ifPresent(layout -> {
            checks.add(files.seal()
                    .map(seal -> again("the layout", seal, () -> sameLayout(layout, seal)))
                    .orElseGet(() -> Check.cannotBeTold(
                            "the layout",
                            "Without a seal nobody can say by which seed it was drawn, or whether it was.")));
            files.seal().ifPresent(seal -> beside(layout, seal).forEach(checks::add));
        });
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

    private List<Check> beside(Layout layout, Seal seal) {
        var checks = new ArrayList<Check>();
        var handling = files.handling();
        if (!handling.frames().isEmpty() || seal.framesSha256().isPresent()) {
            checks.add(again(
                    "the frames",
                    seal,
                    () -> FrameDraw.of(files.trial(), drawn(seal), seal.seed()).stream()
                            .filter(f -> has(layout, f.tray()))
                            .toList()
                            .equals(handling.frames())));
        }
        if (!handling.moves().isEmpty() || seal.movesSha256().isPresent()) {
            checks.add(again(
                    "the moves",
                    seal,
                    () -> RotationSchedule.of(files.trial(), drawn(seal), seal.seed()).stream()
                            .filter(m -> has(layout, m.tray()))
                            .toList()
                            .equals(handling.moves())));
        }
        return checks;
    }

    private static boolean has(Layout layout, String tray) {
        return layout.trays().stream().anyMatch(t -> t.code().equals(tray));
    }

    private boolean sameLayout(Layout layout, Seal seal) {
        var drawn = drawn(seal);
        return drawn.trays().equals(layout.trays()) || isPart(layout, drawn);
    }

    private Layout drawn(Seal seal) {
        return Randomisation.of(files.trial()).draw(Generator.of(seal.seed()));
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

    /** Draws again, and says whether the same came of it. */
    private Check again(String what, Seal seal, Callable<Boolean> same) {
        if (!seal.generator().equals(Generator.NAME)) {
            return Check.cannotBeTold(
                    what, "It was drawn by " + Wording.quote(seal.generator()) + ", which this version doesn't have.");
        }
        return deadline.within(() -> drawnAgain(what, seal, same)).orElseGet(() -> deadline.tooLong(what));
    }

    private static Check drawnAgain(String what, Seal seal, Callable<Boolean> same) throws Exception {
        var from = "from plan and seed " + seal.seed();
        try {
            if (same.call()) {
                return Check.agrees(what, "Drawn again " + from + ": the same.");
            }
        } catch (DoesNotFitException e) {
            return Check.differs(
                    what,
                    "The plan in the pack can't be laid out at all: "
                            + Wording.visible(e.reasons().get(0)));
        }
        return seal.version().equals(Version.text())
                ? Check.differs(what, "Drawn again " + from + ": something else.")
                : Check.cannotBeTold(
                        what,
                        "Drawn again " + from + " by version " + Version.text() + ": something else. Version "
                                + Wording.quote(seal.version()) + " drew it, and may have drawn in another way.");
    }
}
