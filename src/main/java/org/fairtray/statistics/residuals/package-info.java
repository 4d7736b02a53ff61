/** What a model leaves over, looked at piece by piece: outliers, trends, neighbours, replicates. */
package org.fairtray.statistics.residuals;
