package org.fairtray.trial;

/**
 * Something several trays share though they stand apart: a soaking jar, a mixing batch.
 *
 * @param name the grower's name, such as jar
 * @param of the factor whose levels each have batches of their own
 * @param count how many batches each level of that factor has, 1 or more
 */
public record Batch(String name, String of, int count) {

    /** @throws IllegalArgumentException if the count is below 1 */
    public Batch {
        if (count < 1) {
            throw new IllegalArgumentException("batch '" + name + "' with count " + count + ": expected 1 or more");
        }
    }
}
