package org.fairtray.sizing.simulation;

import java.util.Locale;

/** What says of a simulated trial whether it found a term. */
public enum Judge {
    /** The F of the term in the stratum that it is tested in, on the plan's scale, at alpha. */
    ANOVA,
    /** The likelihood ratio of the mixed logistic fit, held against chi-squared, at alpha. */
    LOGISTIC,
    /** What the analysis concludes: for a factor the verdict "changed", for an interaction its test at alpha. */
    VERDICT;

    /** The word in files: anova, logistic or verdict. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }
}
