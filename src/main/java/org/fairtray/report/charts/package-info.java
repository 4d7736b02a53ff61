/**
 * Charts as SVG text, from labels and numbers that are ready to be shown. Nothing here knows of trials: a chart is
 * checked with five numbers and no tray. Made to be read 330 pixels wide, and in grey.
 */
package org.fairtray.report.charts;
