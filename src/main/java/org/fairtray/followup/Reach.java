package org.fairtray.followup;

/**
 * What the follow-up would see of a factor.
 *
 * @param factor its name
 * @param difference of rates that is worth finding, a proportion
 * @param power the chance that its test finds it
 * @param unit what gets its levels one by one
 * @param unitsPerLevel how many of those each level has, on average
 * @param sowings how often the same trial has to be sown for the power wanted; 1 where once is enough, null where
 *     {@value SmallestPlace#MOST_SOWINGS} sowings are not
 */
public record Reach(
        String factor, double difference, double power, String unit, double unitsPerLevel, Integer sowings) {}
