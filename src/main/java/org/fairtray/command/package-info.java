/** The command line: one short class a command, and {@code Fairtray}, which turns outcomes into exit status. */
package org.fairtray.command;
