package org.fairtray.design;

import java.util.List;

/** The place can't hold what the plan asks for; each reason says which numbers would fit. */
public final class DoesNotFitException extends RuntimeException {
    private static final long serialVersionUID = 1;

    private final String[] reasons;

    /** @param reasons one or more sentences */
    public DoesNotFitException(List<String> reasons) {
        super(String.join(" ", reasons));
        this.reasons = reasons.toArray(String[]::new);
    }

    /** The reasons, a sentence each. */
    public List<String> reasons() {
        return List.of(reasons);
    }
}
