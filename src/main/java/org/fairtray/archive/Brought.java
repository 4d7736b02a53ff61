package org.fairtray.archive;

import java.util.Optional;

/**
 * What one shared trial brings to a pooled analysis.
 *
 * @param version which form the text has
 * @param text as it was given
 */
public record Brought(String id, String trialId, String title, Optional<String> farm, int version, String text) {}
