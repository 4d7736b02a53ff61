/** How fast a count came out: hazards, curves and indices from what each tray gave day by day. */
package org.fairtray.analysis.speed;
