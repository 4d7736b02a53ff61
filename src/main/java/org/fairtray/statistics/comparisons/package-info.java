/** Several comparisons at once. */
package org.fairtray.statistics.comparisons;
