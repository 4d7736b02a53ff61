/**
 * The search for a good layout where full sets don't fit, on plain arrays: units in blocks, candidates as rows of columns.
 * It knows nothing of trays.
 */
package org.fairtray.design.search;
