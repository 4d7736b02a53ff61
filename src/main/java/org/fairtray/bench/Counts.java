package org.fairtray.bench;

import java.util.List;

/**
 * What was counted. Whatever is missing is null.
 *
 * @param cells all, or those that changed
 * @param conflicts all that are open
 * @param last the number of the newest entry
 * @param sownOn a date, ISO 8601
 * @param openedAt when the seal was opened
 * @param countedAfterOpening counts made since then
 * @param problem why readings.csv isn't written at the moment
 */
public record Counts(
        List<CellNow> cells,
        List<Differing> conflicts,
        List<Photo> photos,
        long last,
        String sownOn,
        Today today,
        boolean opened,
        String openedAt,
        int countedAfterOpening,
        String problem) {}
