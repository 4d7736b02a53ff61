package org.fairtray.bench;

import java.util.Map;

/**
 * A count as a page sends it. Whatever is missing is null.
 *
 * @param id made by the page
 * @param seen the sequence of the {@link CellNow} that the counter had in view; 0 for none
 * @param values by column; null takes a figure back
 * @param sown seeds in the frame, where they differ from the plan
 * @param saidAt the phone's clock, ISO 8601
 * @param seconds how long the tray took
 * @param settles whether it decides between two figures that differ
 */
public record Offer(
        String id,
        String tray,
        int day,
        int frame,
        long seen,
        Map<String, String> values,
        String note,
        String sown,
        String saidAt,
        Double seconds,
        boolean settles) {}
