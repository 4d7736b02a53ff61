/**
 * What was found, written out: results.json for programs and report.html for people. Two renderings of the same
 * {@link org.fairtray.analysis.Findings}; neither computes anything that isn't in them.
 */
package org.fairtray.report;
