package org.fairtray.trial;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * What is sown.
 *
 * @param name such as beet
 * @param seedLot the number on the bag
 * @param thousandSeedWeight grams per 1000 seeds (units, for clusters)
 * @param seedsPerUnit true seeds in what is sown as one: 1, or more for clusters
 */
public record Crop(
        String name, Optional<String> seedLot, OptionalDouble thousandSeedWeight, OptionalInt seedsPerUnit) {}
