package org.fairtray.jobs;

import java.util.Optional;
import org.fairtray.analysis.Sealing;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.trial.Layout;

/** What a job can't do without, out of a trial's files; where it is missing, the problem says so. */
public final class Needed {
    /** Whichever layout chance draws, its sizes are the same or nearly so. */
    private static final long SOME_SEED = 1;

    private Needed() {}

    /** The layout of a trial that must have one. */
    public static Layout layout(TrialFiles files) {
        return files.layout().orElseThrow(() -> missing("layout.csv", "the layout; lay draws one"));
    }

    /** The layout of a trial, or where it has none yet, one that its plan could have. */
    public static Layout layoutOrDrawn(TrialFiles files) {
        return files.layout().orElseGet(() -> Randomisation.of(files.trial()).draw(Generator.of(SOME_SEED)));
    }

    public static ProblemsException missing(String file, String expected) {
        return new ProblemsException(new Problem(file, 0, "no such file", expected, Optional.empty()));
    }

    public static Sealing sealing(TrialFiles files) {
        return new Sealing(
                files.sealState(),
                files.seal(),
                files.planSha256(),
                files.layoutSha256().orElse(null));
    }
}
