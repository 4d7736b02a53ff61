package org.fairtray.network;

import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.fairtray.archive.Deposit;
import org.fairtray.archive.SharedTrial;
import org.fairtray.archive.SharedTrial.Condition;
import org.fairtray.archive.SharedTrial.Varied;
import org.fairtray.files.Problem;
import org.fairtray.files.ProblemsException;
import org.fairtray.files.Sha256;
import org.fairtray.packs.Pack;
import org.fairtray.pooling.contribution.ContributionText;
import org.fairtray.trial.Crop;

/** What the archive is told of a pack. */
public final class Depositing {
    private Depositing() {}

    /**
     * A pack, ready to be kept.
     *
     * @param shown what messages call the pack
     * @param zip its bytes
     * @throws ProblemsException if it has no layout, or what it brings can't be worked out
     */
    public static Deposit of(String shown, Pack pack, byte[] zip) {
        var files = pack.trial();
        var layout = files.layoutSha256()
                .orElseThrow(() -> refused(shown, "no layout.csv in it", "a trial that was laid out"));
        var plan = files.trial();
        var trial = new SharedTrial(
                pack.id(),
                sameTrial(files.planSha256(), layout),
                plan.title(),
                plan.crop().map(Crop::name).orElse(""),
                plan.question().orElse(""),
                files.layout().orElseThrow().trays().size(),
                plan.outcomes().get(0).name(),
                files.sealState().layoutIsDrawn(),
                pack.version(),
                files.planSha256(),
                pack.farm(),
                plan.factors().stream()
                        .map(f -> new Varied(f.name(), f.unit(), f.levels()))
                        .toList(),
                plan.conditions().entrySet().stream()
                        .map(c -> new Condition(c.getKey(), c.getValue()))
                        .toList());
        return new Deposit(trial, ContributionText.FORMAT, ContributionText.of(Worked.out(shown, files)), zip);
    }

    /** The same for all packs of one trial, however far it was counted when they were made. */
    private static String sameTrial(String planSha256, String layoutSha256) {
        return Sha256.of((planSha256 + layoutSha256).getBytes(StandardCharsets.US_ASCII));
    }

    private static ProblemsException refused(String shown, String found, String expected) {
        return new ProblemsException(new Problem(shown, 0, found, expected, Optional.empty()));
    }
}
