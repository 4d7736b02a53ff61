/**
 * What a layout is as a design: its strata, what is confounded or not repeated, which arrangements could have been drawn,
 * and drawing one from a seed. Drawing, audit and analysis must agree on these, so they are said here once.
 */
package org.fairtray.design;
