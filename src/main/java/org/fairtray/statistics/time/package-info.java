/** When things happen that are looked for only on some days: models, curves and indices of counts over time. */
package org.fairtray.statistics.time;
