package org.fairtray.archive;

/**
 * A shared trial to be kept.
 *
 * @param contributionVersion which form the contribution has
 * @param contribution what the trial brings to a pooled analysis, as text that the archive doesn't read
 * @param pack the pack's bytes
 */
public record Deposit(SharedTrial trial, int contributionVersion, String contribution, byte[] pack) {
    public Deposit {
        contribution = Words.storable(contribution);
        pack = pack.clone();
    }

    @Override
    public byte[] pack() {
        return pack.clone();
    }
}
