/** What one trial brings to an analysis of many growers' trials: a pure function of its plan, layout and readings. */
package org.fairtray.pooling.contribution;
