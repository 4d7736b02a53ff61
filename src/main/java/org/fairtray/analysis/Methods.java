package org.fairtray.analysis;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.fairtray.design.Restrictions;
import org.fairtray.design.Structure;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Logistic;
import org.fairtray.findings.Rerandomised;
import org.fairtray.findings.Words;
import org.fairtray.trial.Restriction;
import org.fairtray.trial.Rotation;
import org.fairtray.trial.Trial;

/** What was done, for a statistician, written from what was done. */
final class Methods {
    private final Trial trial;
    private final Structure structure;
    private final Findings.Anova anova;
    private final Optional<Logistic> logistic;
    private final List<Rerandomised> chance;

    /** @param logistic null for a measure */
    Methods(Structure structure, Findings.Anova anova, Logistic logistic, List<Rerandomised> chance) {
        this.trial = structure.trial();
        this.structure = structure;
        this.anova = anova;
        this.logistic = Optional.ofNullable(logistic);
        this.chance = chance;
    }

    /**
     * Sentence by sentence.
     *
     * @param trends whether trends were looked for
     * @param equivalences whether levels were held against what is worthwhile
     * @param draws of the bootstrap; 0 without one
     */
    List<String> sentences(boolean trends, boolean equivalences, int draws) {
        var sentences = new ArrayList<String>();
        sentences.add("The tray was the unit of analysis; counting frames of a tray were "
                + (logistic.isPresent() ? "added up" : "averaged") + ".");
        sentences.add("Strata: " + String.join(", ", structure.strataNames()) + ".");
        trial.rotation().map(this::rotation).ifPresent(sentences::add);
        restrictions().ifPresent(sentences::add);
        sentences.add(terms());
        sentences.add(variance());
        logistic.ifPresent(l -> sentences.addAll(logistic(l)));
        bootstrap(draws).ifPresent(sentences::add);
        rerandomisation().ifPresent(sentences::add);
        sentences.add(differences());
        if (trends) {
            sentences.add(trends());
        }
        if (equivalences) {
            sentences.add("Whether a level is as good as the control is two one-sided t tests of its difference against"
                    + " plus and minus what is worthwhile, each level by itself, with no spread taken below what seeds"
                    + " alone give.");
        }
        sentences.add(verdicts());
        return sentences;
    }

    private Optional<String> restrictions() {
        var kept = Restrictions.kept(trial, structure.trays());
        return kept.isEmpty()
                ? Optional.empty()
                : Optional.of("The layout was restricted: "
                        + kept.stream().map(Restriction::words).collect(Collectors.joining("; "))
                        + ". The model is the same as without; its F tests are then approximate, and the"
                        + " re-randomisation test keeps to the restrictions (Grundy and Healy 1950; Youden 1972).");
    }

    private String rotation(Rotation rotation) {
        int places = trial.place()
                .levels()
                .get(trial.place().names().indexOf(rotation.level()))
                .count();
        return "Trays changed places of " + rotation.level() + " on day "
                + rotation.days().stream().map(String::valueOf).collect(Collectors.joining(", "))
                + ", so that each stood at "
                + Math.min(places, rotation.days().size() + 1) + " of " + places + "; " + rotation.level()
                + " is then neither a block nor a stratum, and what it did is averaged over and counts as difference"
                + " between trays.";
    }

    private String terms() {
        return "Terms: " + structure.terms().stream().map(t -> t.name()).collect(Collectors.joining(", "))
                + (trial.factors().size() > structure.highestOrder()
                        ? " (interactions of more than " + structure.highestOrder() + " factors were not fitted"
                                + (structure.leavesInteractionsOut()
                                        ? ": with them main effects could not be estimated)."
                                        : ").")
                        : ".");
    }

    private String variance() {
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

    private List<String> logistic(Logistic found) {
        if (found.used() == null) {
            return List.of(found.why());
        }
        return switch (found.used()) {
            case "marginal" ->
                List.of(
                        "The logistic model has " + String.join(" and ", outerStrata())
                                + " at random, in treatment coding against the control: marginal quasi-likelihood, its"
                                + " variances by REML, its tests and intervals by Kenward and Roger.",
                        "No verdict counts on a spread below what seeds alone give.");
            case "penalised" ->
                List.of(
                        "The logistic model was fitted by Firth's penalised likelihood " + blocks()
                                + ", because odds by maximum likelihood are infinite; each term was left out of the model that"
                                + " holds every term not containing it, the penalty being that of the larger model.",
                        dispersion());
            default ->
                List.of(
                        "The logistic model was fitted by maximum likelihood " + blocks()
                                + ", in treatment coding against the control; each term was left out of the model that holds"
                                + " every term not containing it.",
                        dispersion());
        };
    }

    private List<String> outerStrata() {
        var names = structure.strataNames();
        return names.subList(0, names.size() - 1);
    }

    private String blocks() {
        return structure.fixedBlocks().isEmpty()
                ? "without blocks"
                : "with " + String.join(" and ", structure.fixedBlocks()) + " as fixed blocks";
    }

    private static String dispersion() {
        return "Tests and intervals divide by the dispersion between the units that the factor was given to (Pearson's X²"
                + " divided among strata), with Student's t and F on its degrees of freedom; verdicts never take it below"
                + " 1.";
    }

    private Optional<String> bootstrap(int draws) {
        return logistic.filter(l -> draws > 0 && l.fits().containsKey("mixed"))
                .map(l -> "Each term of the mixed logistic fit was also tested by parametric bootstrap: " + draws
                        + " draws from the fit without it, p = (1 + draws with as large a likelihood ratio) / (1 + draws);"
                        + " draws whose fits did not come to rest were left out.");
    }

    private Optional<String> rerandomisation() {
        return chance.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        "Each term that the analysis of variance tests was tested by re-randomisation too: its F was"
                                + " worked out anew for arrangements that the layout's randomisation could have given ("
                                + chance.stream()
                                        .map(r -> r.term() + ": " + (r.exact() ? "all " : "") + r.arrangements() + ", "
                                                + r.scheme())
                                        .collect(Collectors.joining("; "))
                                + "), and p is the share with an F as large as the observed, the actual one counted in.");
    }

    private String differences() {
        boolean several = trial.factors().stream().anyMatch(f -> f.levels().size() > 2);
        return "Differences are averaged over the levels of the other factors with equal weights, among combinations sown"
                + " with both levels"
                + (several
                        ? "; p-values and intervals of several levels against one control are adjusted by Dunnett's method"
                                + " with the correlations of the estimates, those of all pairs by Tukey's and Kramer's."
                        : ".");
    }

    private static String trends() {
        return "Trends of numeric factors are orthogonal polynomials of the levels' averages over combinations sown with"
                + " every level, each level weighing the same, each component with Student's t; what is left beside the"
                + " first two is tested together by a Wald F. A best level is the turning point of the quadratic with"
                + " Fieller's interval, given where the curve is shown to bend down.";
    }

    private String verdicts() {
        return "Verdicts use alpha = " + trial.choices().alpha()
                + trial.expectations().worthwhile().stream()
                        .mapToObj(w -> " and call a difference of " + Words.points(w) + " worthwhile")
                        .findFirst()
                        .orElse("")
                + ".";
    }
}
