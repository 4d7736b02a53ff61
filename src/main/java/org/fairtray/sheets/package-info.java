/** What is on the sheets that go to the rack: map, protocol, counting sheets, labels, and the key apart from them. */
package org.fairtray.sheets;
