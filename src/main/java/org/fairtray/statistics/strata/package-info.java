/** The strata of a layout and how the terms of a model fall into them. */
package org.fairtray.statistics.strata;
