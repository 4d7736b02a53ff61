package org.fairtray.sizing;

/**
 * A number that sizing takes for granted.
 *
 * @param key its name in the plan, such as {@code tray_correlation} or {@code place_sd.stack}
 * @param value in the plan's unit
 * @param planned whether the plan says it
 * @param source where it comes from, for people
 */
public record Assumption(String key, double value, boolean planned, String source) {
    private static final String PLAN = "the plan";

    /** What the plan says. */
    static Assumption planned(String key, double value) {
        return new Assumption(key, value, true, PLAN);
    }

    /** What is taken where the plan says nothing. */
    static Assumption usual(String key, double value, String source) {
        return new Assumption(key, value, false, source);
    }
}
