package org.fairtray.sharing;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.fairtray.trial.Trial;

/** What a plan says beyond its numbers: it goes along as it is, so whoever packs should know. */
final class PlanWords {
    private static final Pattern QUOTED = Pattern.compile("(?<=[\\s:,\\[{])(\"[^\"]*\"|'[^']*')");
    private static final Pattern REMARK = Pattern.compile("(^|\\s)#");

    private PlanWords() {}

    /** A sentence on plan.yaml. */
    static String of(byte[] plan, Trial trial) {
        long remarks = remarks(plan);
        var has = remarks == 0 ? "" : "its " + (remarks == 1 ? "remark" : remarks + " remarks") + " and ";
        return "plan.yaml goes as it is, because a seal is on its bytes: with " + has + "what it says in "
                + String.join(", ", keys(trial)) + ". Read it through.";
    }

    /** Lines with a remark. */
    private static long remarks(byte[] plan) {
        return new String(plan, StandardCharsets.UTF_8)
                .lines()
                .map(line -> QUOTED.matcher(line).replaceAll("''"))
                .filter(line -> REMARK.matcher(line).find())
                .count();
    }

    private static List<String> keys(Trial trial) {
        var keys = new ArrayList<>(List.of("trial"));
        trial.question().ifPresent(q -> keys.add("question"));
        trial.crop().ifPresent(c -> keys.add("crop"));
        if (!trial.definitions().isEmpty()) {
            keys.add("definitions");
        }
        if (trial.costs().isPresent()) {
            keys.add("costs");
        }
        return keys;
    }
}
