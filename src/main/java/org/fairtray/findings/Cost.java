package org.fairtray.findings;

import java.util.Map;

/**
 * What a seedling that came out costs with a treatment.
 *
 * @param currency as the plan says
 * @param perTray tray, seed and labour of one tray
 * @param seedlingsPerTray seeds of a tray times the rate
 * @param perThousand cost of a thousand seedlings; null where none came out
 * @param low of its interval, as is high; high is null where the rate may be 0
 */
public record Cost(
        Map<String, String> treatment,
        String currency,
        Double perTray,
        Double seedlingsPerTray,
        Double perThousand,
        Double low,
        Double high) {}
