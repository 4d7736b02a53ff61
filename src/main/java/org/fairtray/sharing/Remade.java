package org.fairtray.sharing;

import java.util.Optional;
import java.util.SortedMap;
import org.fairtray.analysis.AnalysisOptions;
import org.fairtray.files.TrialFiles;
import org.fairtray.jobs.Analysed;
import org.fairtray.report.Picture;
import org.fairtray.trial.ShownPhoto;

/** Results and report, made of what is in a pack and of nothing else. */
public final class Remade {
    static final String PHOTOS = "photos/";

    private Remade() {}

    /** Empty where there is nothing to analyse. */
    public static Optional<Analysed> of(SortedMap<String, byte[]> files) {
        var trial = TrialFiles.of(files);
        return trial.readings().isEmpty()
                ? Optional.empty()
                : Optional.of(Analysed.of(trial, photo -> picture(photo, files), "", AnalysisOptions.USUAL));
    }

    /** A pack's photos are small already: painted once more, they would come out otherwise on another computer. */
    private static Picture picture(ShownPhoto photo, SortedMap<String, byte[]> files) {
        var jpeg = files.get(PHOTOS + photo.file());
        return jpeg == null
                ? Picture.missing(photo, "the pack has no " + PHOTOS + photo.file())
                : Picture.of(photo, jpeg);
    }
}
