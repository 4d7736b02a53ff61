/** A trial as one file to hand on: what is in it, how it is written, and how one from a stranger is read. */
package org.fairtray.packs;
