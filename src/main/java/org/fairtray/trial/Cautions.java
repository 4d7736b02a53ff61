package org.fairtray.trial;

import java.util.List;

/** What anyone should mind who grows food in warm, wet, stacked trays. Short, and last word to those who answer for it. */
public final class Cautions {
    /** In the order of reading; the last gives way to local rules and licensed people. */
    public static final List<String> ALL = List.of(
            "Don’t eat or sell trays that were handled for counting, or that got anything but drinking water. Compost or"
                    + " bin them.",
            "Use seed sold for sprouts or microgreens, and keep its lot number. Never use seed treated with a pesticide,"
                    + " nor its trays again for food.",
            "Soaking water and warm, wet, dark trays feed bacteria as well as roots. Clean hands, tweezers and trays"
                    + " before and after counting.",
            "In many countries sprouts and microgreens fall under different food rules. Find out which yours are before"
                    + " you sell.",
            "Don’t smell a mouldy tray. Bag the whole tray, not the patch; wear a mask if mould troubles you.",
            "Wash first, then sanitise as the label says. Never mix bleach with vinegar, other acids or ammonia.",
            "Wet trays and weights are heavy and slippery. Stand heavy stacks low, keep weights from sliding, stay below"
                    + " the shelf’s printed load.",
            "Keep plugs above the water, use a fault-current breaker, and switch lights and mats off before watering. No"
                    + " cloth on lamps or heat mats. Mains work is for an electrician.",
            "Your local food, workplace, chemical and electrical rules come before anything written here, and so does the"
                    + " advice of people licensed to give it. This replaces neither.");

    private Cautions() {}
}
