/** How counts come on by day, tray by tray and by treatment: to look at while counting, not to analyse. */
package org.fairtray.bench.progress;
