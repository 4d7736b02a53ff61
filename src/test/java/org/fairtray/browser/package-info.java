/** The bench in a real browser, headless; skipped with a notice where there is none. */
package org.fairtray.browser;
