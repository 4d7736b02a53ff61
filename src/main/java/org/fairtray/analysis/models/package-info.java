/** The models of an outcome: its columns, its fits, the tests of its terms, the comparison of its levels. */
package org.fairtray.analysis.models;
