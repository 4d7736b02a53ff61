/**
 * What was found, written out: results.json for programs and report.html for people. Two renderings of the same
 * {@link org.fairtray.analysis.Findings}; neither adds a number of its own, but for the means of residuals by place that
 * a chart shows.
 */
package org.fairtray.report;
