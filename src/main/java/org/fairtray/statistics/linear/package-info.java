/** Models of measures: least squares, and variance components with their tests. */
package org.fairtray.statistics.linear;
