package org.fairtray.network;

import java.util.Optional;
import org.fairtray.design.DoesNotFitException;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.TrialFiles;
import org.fairtray.files.Wording;
import org.fairtray.pooling.contribution.Contribution;

/** What trials of strangers bring: one that no analysis takes is told of, and keeps no other out. */
final class Worked {
    private Worked() {}

    /**
     * What a trial brings.
     *
     * @param shown what messages call it
     * @throws ProblemsException if it has no layout, or can't be analysed
     */
    static Contribution out(String shown, TrialFiles files) {
        if (files.layout().isEmpty()) {
            throw refused(shown, "a trial without a layout", "one that was laid out and read");
        }
        try {
            return Contribution.of(files);
        } catch (DoesNotFitException e) {
            throw refused(shown, "that it can't be analysed (" + String.join("; ", e.reasons()) + ")", "one that can");
        } catch (IllegalArgumentException | IllegalStateException | ArithmeticException e) {
            throw refused(
                    shown,
                    "that it can't be analysed (" + Wording.visible(String.valueOf(e.getMessage())) + ")",
                    "a trial that fairtray analyse takes");
        }
    }

    private static ProblemsException refused(String shown, String found, String expected) {
        return new ProblemsException(new Problem(shown, 0, found, expected, Optional.empty()));
    }
}
