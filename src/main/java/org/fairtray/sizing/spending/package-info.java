/** Where the next tray, seed or minute is best spent: what trials of other sizes cost and find. */
package org.fairtray.sizing.spending;
