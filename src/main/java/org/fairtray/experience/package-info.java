/** What an analysed trial teaches about the next one: rates, how much trays and places differ, how long counting took. */
package org.fairtray.experience;
