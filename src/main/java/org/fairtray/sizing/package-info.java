/** Simulated readings: what a trial's counts could look like. */
package org.fairtray.sizing;
