/** Readings as arrays: what each tray gave. */
package org.fairtray.analysis.data;
