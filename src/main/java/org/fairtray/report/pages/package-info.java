/**
 * What stands on a page, as text that is ready to be shown. The templates are compiled into this package and below it,
 * which is why these records are public; they decide nothing.
 */
package org.fairtray.report.pages;
