/** How often a trial would find what it looks for: simulated trials, each put through the real analysis. */
package org.fairtray.sizing.simulation;
