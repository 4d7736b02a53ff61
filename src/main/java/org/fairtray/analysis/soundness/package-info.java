/** Whether the data of an outcome are sound: one small class for each look at them, and none that drops a tray. */
package org.fairtray.analysis.soundness;
