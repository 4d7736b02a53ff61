/**
 * What happened at the bench, one line for each thing, on disk before anyone is told that it is kept; and what follows
 * from it: which figure stands for which frame, and where two people differ.
 */
package org.fairtray.journal;
