/**
 * What a grower asks, varies, places and counts. Records without input or output: a trial can be built, compared and
 * analysed in memory. Everything else in the house stands on these words.
 */
package org.fairtray.trial;
