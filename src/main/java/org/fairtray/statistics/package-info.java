/**
 * Models and tests on plain arrays and small records. Nothing here knows what a tray is, so each can be held against an
 * outside reference with a few numbers.
 */
package org.fairtray.statistics;
