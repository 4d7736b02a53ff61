package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Words;
import org.fairtray.trial.Trial;

/** What was done, for a statistician, written from what was done. */
final class Methods {
    private Methods() {}

    static List<String> of(Trial trial, Structure structure, Findings.Anova anova, Logistic logistic) {
        var sentences = new ArrayList<String>();
        sentences.add("The tray was the unit of analysis; counting frames of a tray were "
                + (logistic == null ? "averaged" : "added up") + ".");
        sentences.add("Strata: " + String.join(", ", structure.strataNames()) + ".");
        sentences.add("Terms: " + structure.terms().stream().map(t -> t.name()).collect(Collectors.joining(", "))
                + (trial.factors().size() > trial.choices().interactions()
                        ? " (interactions of more than " + trial.choices().interactions() + " factors were not fitted)."
                        : "."));
        sentences.add(anova(anova));
        if (logistic != null) {
            sentences.addAll(logistic(structure, logistic));
        }
        sentences.add("Differences are averaged over the levels of the other factors with equal weights, among"
                + " combinations sown with both levels; p-values for several levels against one control are adjusted by"
                + " Holm's method. Verdicts use alpha = " + trial.choices().alpha()
                + trial.expectations().worthwhile().stream()
                        .mapToObj(w -> " and call a difference of " + Words.points(w) + " worthwhile")
                        .findFirst()
                        .orElse("")
                + ".");
        return sentences;
    }

    private static String anova(Findings.Anova anova) {
        String scale = switch (anova.scale()) {
            case "angular" -> "the angular scale, asin(sqrt(y/n)) in radians";
            case "proportion" -> "proportions y/n";
            case "logit" -> "empirical logits, ln((y + 0.5) / (n − y + 0.5))";
            default -> "the measured values";
        };
        return "The analysis of variance is of " + scale
                + (anova.orthogonal()
                        ? "; the layout was found to be orthogonal, and each term is tested in the stratum it lies in."
                        : "; the layout was found not to be orthogonal, so each term is what it adds to the terms that don't"
                                + " contain it, in every stratum that holds information on it.");
    }

    private static List<String> logistic(Structure structure, Logistic logistic) {
        if (logistic.used() == null) {
            return List.of(logistic.why());
        }
        String blocks = structure.fixedBlocks().isEmpty()
                ? "without blocks"
                : "with " + String.join(" and ", structure.fixedBlocks()) + " as fixed blocks";
        return List.of(
                "The logistic model was fitted by maximum likelihood " + blocks
                        + ", in treatment coding against the control; each term was left out of the model that holds every"
                        + " term not containing it.",
                "Verdicts and intervals divide by the dispersion between the units that the factor was given to (Pearson's"
                        + " X² divided among strata), never taken below 1, with Student's t and F on its degrees of"
                        + " freedom.");
    }
}
