/** Photos as others may get them: small, upright, and without what a camera writes into them. */
package org.fairtray.photos;
