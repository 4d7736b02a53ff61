/** Several questions and one rack: which trials to sow in a season, how often and in which order. */
package org.fairtray.season;
