/**
 * Several trials' estimates of one thing, put together: what they say as a whole, how much the thing itself differs from
 * trial to trial, and what may lie behind that.
 */
package org.fairtray.statistics.pooling;
