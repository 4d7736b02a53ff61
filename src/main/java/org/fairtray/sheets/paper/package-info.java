/**
 * Pages as words, lines and boxes at places in millimetres, and how words are made to fit. Knows no tray and no file
 * format: what stands where is worked out here and drawn elsewhere.
 */
package org.fairtray.sheets.paper;
