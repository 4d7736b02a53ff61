/** A trial on the bench: counting it, keeping every count, and writing readings.csv from them. Knows nothing of the web. */
package org.fairtray.bench;
