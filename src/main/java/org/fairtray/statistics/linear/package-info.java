/** Models of measures. */
package org.fairtray.statistics.linear;
