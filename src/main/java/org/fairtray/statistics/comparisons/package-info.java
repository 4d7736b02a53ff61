/** Several comparisons at once, and what else is asked of estimates: trends, turning points, equivalence. */
package org.fairtray.statistics.comparisons;
