/**
 * Turns a trial and its readings into findings: which factor changed the outcome, by how much and how sure. Here the
 * words of {@code trial} meet the arrays of {@code statistics}.
 */
package org.fairtray.analysis;
