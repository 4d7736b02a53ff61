package org.fairtray.pooling;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.trial.Area;

/**
 * A unit that levels are given in.
 *
 * <pre>  in the base unit of its kind = (level + zero) · times</pre>
 *
 * <p>Source: NIST Special Publication 811 (2008), appendix B (pound, ounce, inch, foot, degree Fahrenheit: exact).
 *
 * @param symbol as it is written
 * @param kind what it is a unit of
 * @param times base units in one
 * @param zero what is added to a level first, so that 0 means none
 */
record Unit(String symbol, Kind kind, double times, double zero) {
    private static final double POUND = 0.45359237;
    private static final double FOOT = 0.3048;
    private static final double SQUARE_CM = 1e4;

    /** What can be turned into one another. */
    enum Kind {
        TIME,
        MASS,
        MASS_ON_AREA,
        LENGTH,
        VOLUME,
        TEMPERATURE
    }

    private static final Map<String, Unit> KNOWN = known();

    private static Map<String, Unit> known() {
        var known = new HashMap<String, Unit>();
        add(known, Kind.TIME, 1, "s", "sec", "second", "seconds");
        add(known, Kind.TIME, 60, "min", "mins", "minute", "minutes");
        add(known, Kind.TIME, 3600, "h", "hr", "hrs", "hour", "hours");
        add(known, Kind.TIME, 86400, "d", "day", "days");
        add(known, Kind.MASS, 1e-3, "g", "gram", "grams");
        add(known, Kind.MASS, 1, "kg", "kilo", "kilos", "kilogram", "kilograms");
        add(known, Kind.MASS, POUND, "lb", "lbs", "pound", "pounds");
        add(known, Kind.MASS, POUND / 16, "oz", "ounce", "ounces");
        add(known, Kind.MASS_ON_AREA, 1, "kg/m2", "kg/m²", "kg/m^2");
        add(known, Kind.MASS_ON_AREA, 1e-3, "g/m2", "g/m²", "g/m^2");
        add(known, Kind.MASS_ON_AREA, 10, "g/cm2", "g/cm²", "g/cm^2");
        add(known, Kind.MASS_ON_AREA, POUND / (FOOT * FOOT), "lb/ft2", "lb/ft²", "lb/ft^2");
        add(known, Kind.LENGTH, 1e-3, "mm");
        add(known, Kind.LENGTH, 1e-2, "cm");
        add(known, Kind.LENGTH, 1, "m");
        add(known, Kind.LENGTH, FOOT / 12, "in", "inch", "inches");
        add(known, Kind.VOLUME, 1, "l", "litre", "litres", "liter", "liters");
        add(known, Kind.VOLUME, 1e-3, "ml");
        List.of("°c", "c", "celsius").forEach(s -> known.put(s, new Unit(s, Kind.TEMPERATURE, 1, 0)));
        List.of("°f", "f", "fahrenheit").forEach(s -> known.put(s, new Unit(s, Kind.TEMPERATURE, 5.0 / 9, -32)));
        return known;
    }

    private static void add(Map<String, Unit> known, Kind kind, double times, String... symbols) {
        for (String symbol : symbols) {
            known.put(symbol, new Unit(symbol, kind, times, 0));
        }
    }

    /** The unit that a text names; empty where it is none of these. */
    static Optional<Unit> of(String text) {
        return Optional.ofNullable(KNOWN.get(text.strip().toLowerCase(Locale.ROOT)));
    }

    /**
     * A level of this unit in another one.
     *
     * @param tray the size of the tray that a weight lies on, which turns a weight into one for each area
     * @return empty where the two aren't of one kind, or the tray's size would be needed and isn't known
     */
    OptionalDouble to(Unit other, double level, Optional<Area> tray) {
        double base = (level + zero) * times;
        if (kind == other.kind) {
            return OptionalDouble.of(base / other.times - other.zero);
        }
        if (kind == Kind.MASS && other.kind == Kind.MASS_ON_AREA && tray.isPresent()) {
            return OptionalDouble.of(base * SQUARE_CM / tray.get().size() / other.times);
        }
        return OptionalDouble.empty();
    }
}
