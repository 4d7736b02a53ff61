/** The follow-up of an analysed trial: what to settle, what to keep, how large, and where it stands. */
package org.fairtray.followup;
