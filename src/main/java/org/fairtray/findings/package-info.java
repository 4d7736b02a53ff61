/** What an analysis found, as records, and how numbers are said in its sentences. No result is worked out here. */
package org.fairtray.findings;
