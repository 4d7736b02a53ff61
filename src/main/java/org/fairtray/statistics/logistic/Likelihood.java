package org.fairtray.statistics.logistic;

/** A log-likelihood of k parameters that can be climbed. */
interface Likelihood {

    /** How many parameters there are. */
    int size();

    /**
     * The log-likelihood and its slopes.
     *
     * @param at k parameters, not changed
     * @param gradient room for k slopes, written over
     * @return the log-likelihood; NaN where it can't be worked out
     */
    double value(double[] at, double[] gradient);
}
