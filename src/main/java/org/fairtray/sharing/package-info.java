/** What goes into a pack and what stays at home; and whether what a pack says holds. */
package org.fairtray.sharing;
