/** The planning side of the bench: what can be said of a plan while it is being written. */
package org.fairtray.bench.planning;
