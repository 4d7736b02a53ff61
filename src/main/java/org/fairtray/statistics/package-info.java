/**
 * What models and tests are made of: counts, columns, groupings, tail probabilities. Nothing here and in the rooms under
 * it knows what a tray is, so each can be held against an outside reference with a few numbers.
 */
package org.fairtray.statistics;
