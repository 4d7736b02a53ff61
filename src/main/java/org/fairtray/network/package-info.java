/** A network of growers: their packs are read, what each trial brings to pooling is worked out, and the archive keeps both. */
package org.fairtray.network;
