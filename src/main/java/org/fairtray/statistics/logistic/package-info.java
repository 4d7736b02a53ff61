/** Models of counts on the log-odds scale. */
package org.fairtray.statistics.logistic;
