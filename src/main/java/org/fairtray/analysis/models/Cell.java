package org.fairtray.analysis.models;

import java.util.Map;
import org.fairtray.trial.Treatment;

/**
 * A treatment in a block: what a row of a model describes.
 *
 * @param treatment a level for each factor
 * @param blocks the unit of each fixed block, by level name
 */
public record Cell(Treatment treatment, Map<String, String> blocks) {}
