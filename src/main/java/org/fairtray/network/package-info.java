/** The grower network: shared trials wherever they lie, read one at a time, and kept in an archive. */
package org.fairtray.network;
