package org.fairtray.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;
import org.fairtray.findings.Findings;
import org.fairtray.findings.Findings.Anova;
import org.fairtray.findings.Findings.AnovaTerm;
import org.fairtray.findings.Findings.OutcomeFindings;
import org.fairtray.findings.Findings.Residual;
import org.fairtray.findings.Findings.Stratum;
import org.fairtray.trial.AnalysisChoices;
import org.fairtray.trial.Counting;
import org.fairtray.trial.Crop;
import org.fairtray.trial.Expectations;
import org.fairtray.trial.Factor;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Outcome;
import org.fairtray.trial.Place;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Treatment;
import org.fairtray.trial.Trial;

/**
 * Invented trials with invented findings, to see how they are written. The numbers are plausible and nothing more: no
 * analysis was run.
 */
record SampleFindings(Trial trial, Layout layout, Findings findings) {
    static final String EVIL = "<script>alert(1)</script> \"quoted\" & 'single' \u202eright to left\u202c =1+1 \u0007 ";

    String html() {
        return Report.of(trial, layout, findings).html();
    }

    /** 24 trays, 2 x 2 x 3, with cover on whole stacks; roots, germination and height; one tray of height unread. */
    static SampleFindings splitPlot() {
        var trial = trial(
                "Beet roots on three mats",
                List.of(
                        new Factor("soak", Optional.of("h"), List.of("0", "8"), "tray"),
                        new Factor("cover", Optional.of("kg"), List.of("0", "3"), "stack"),
                        new Factor("mat", Optional.empty(), List.of("hemp", "coir", "pad"), "tray")),
                new Place(List.of(level("shelf", 2), level("stack", 3), across("position", 4, "stack"))));
        var layout = layout(trial, 24);
        var height = SampleOutcomes.height(trial, layout);
        return new SampleFindings(
                trial,
                layout,
                findings(trial, List.of(through(trial, layout), SampleOutcomes.germinated(trial, layout), height)));
    }

    private static OutcomeFindings through(Trial trial, Layout layout) {
        var verdicts = List.of(
                new Findings.Verdict(
                        "soak",
                        "changed",
                        "Soaking 8 h instead of 0 h raised through by day 6 from 35 % to 55 %: 20 points more (8 to 31), p"
                                + " = 0.004."),
                new Findings.Verdict(
                        "cover",
                        "cannot tell",
                        "3 kg against 0 kg: 6 points more (−17 to 29), p = 0.42. Only six stacks share the cover, so this"
                                + " trial can’t tell."),
                new Findings.Verdict(
                        "mat",
                        "no worthwhile change",
                        "Neither coir nor pad differs from hemp by 15 points or more: coir 2 points more (−9 to 12), pad 3"
                                + " points less (−14 to 7)."));
        var interactions = List.of(new Findings.InteractionNote(
                "soak × mat",
                List.of("soak", "mat"),
                0.03,
                "Soaking helped more on coir (+28 points) than on the pad (+9 points): soak × mat, p = 0.030."));
        return SampleOutcomes.count(trial, layout, "through", 6, verdicts, interactions, splitPlotAnova());
    }

    private static Anova splitPlotAnova() {
        return new Anova(
                "angular",
                "strata",
                false,
                List.of(
                        new Stratum("shelf", List.of(), new Residual(1, 0.00812, 0.00812)),
                        new Stratum(
                                "stack",
                                List.of(
                                        new AnovaTerm(
                                                "cover", List.of("cover"), 1, 0.0312, 0.0312, 0.84, 3.0, 0.427, 1.0),
                                        new AnovaTerm(
                                                "mat", List.of("mat"), 2, 0.0021, 0.00105, null, null, null, 0.125)),
                                new Residual(3, 0.1114, 0.03713)),
                        new Stratum(
                                "tray",
                                List.of(
                                        new AnovaTerm(
                                                "soak", List.of("soak"), 1, 0.2431, 0.2431, 12.61, 11.0, 0.0045, 1.0),
                                        new AnovaTerm(
                                                "mat", List.of("mat"), 2, 0.0121, 0.00605, 0.31, 11.0, 0.737, 0.875),
                                        new AnovaTerm(
                                                "soak × mat",
                                                List.of("soak", "mat"),
                                                2,
                                                0.1902,
                                                0.0951,
                                                4.93,
                                                11.0,
                                                0.0295,
                                                0.875)),
                                new Residual(11, 0.2121, 0.01928))),
                null,
                null,
                List.of("mat lies partly between stacks, because a stack holds four of six combinations."));
    }

    /** One tray and nothing that could be worked out from it. */
    static SampleFindings tiny() {
        var trial = trial(
                "One tray",
                List.of(new Factor("soak", Optional.empty(), List.of("no", "yes"), "tray")),
                new Place(List.of(level("spot", 1))));
        var layout = layout(trial, 1);
        return new SampleFindings(trial, layout, findings(trial, List.of(SampleOutcomes.nothingToTell(trial, layout))));
    }

    /** Names that try to become markup, formulas or mirror writing; one is 200 letters long. */
    static SampleFindings hostile() {
        var trial = trial(
                EVIL,
                List.of(
                        new Factor(EVIL, Optional.of("\"><img src=x onerror=alert(1)>"), List.of("=1+1", EVIL), "tray"),
                        new Factor("x".repeat(200), Optional.empty(), List.of("a\u200fb", "\ud800", "${7*7}"), "tray")),
                new Place(List.of(level("</td><b>", 2), level("בד", 6))));
        var layout = layout(trial, 12);
        var outcome = SampleOutcomes.count(
                trial,
                layout,
                EVIL,
                6,
                List.of(new Findings.Verdict(EVIL, "cannot tell", EVIL)),
                List.of(new Findings.InteractionNote(EVIL, List.of(EVIL), null, EVIL)),
                new Anova("angular", "strata", true, List.of(), null, null, List.of(EVIL)));
        return new SampleFindings(trial, layout, findings(trial, List.of(outcome)));
    }

    /** Many trays in blocks, with one factor of many levels. */
    static SampleFindings many(int blocks, int perBlock, int levels) {
        var names = new ArrayList<String>();
        for (int i = 1; i <= levels; i++) {
            names.add("seed lot " + i);
        }
        var trial = trial(
                "Many trays",
                List.of(new Factor("lot", Optional.empty(), names, "tray")),
                new Place(List.of(level("block", blocks), level("spot", perBlock))));
        var layout = layout(trial, blocks * perBlock);
        var outcome = SampleOutcomes.count(
                trial,
                layout,
                "through",
                6,
                List.of(new Findings.Verdict("lot", "changed", "Lots differ.")),
                List.of(),
                new Anova("angular", "strata", true, List.of(), null, null, List.of()));
        return new SampleFindings(trial, layout, findings(trial, List.of(outcome)));
    }

    static Place.Level level(String name, int count) {
        return new Place.Level(name, count, Optional.empty());
    }

    static Place.Level across(String name, int count, String across) {
        return new Place.Level(name, count, Optional.of(across));
    }

    static Trial trial(String title, List<Factor> factors, Place place) {
        return new Trial(
                title,
                Optional.of("Which of soaking, cover weight and mat changes how many roots get through by day 6?"),
                Optional.of(new Crop("beet", Optional.of("2026-03 A"), OptionalDouble.of(15), OptionalInt.of(1))),
                factors,
                new Treatment(Map.of()),
                List.of(),
                place,
                definitions(),
                List.of(),
                OptionalInt.of(2),
                new Counting(List.of(1, 2, 3, 4, 5, 6), 2, 50, true),
                List.of(
                        new Outcome.Count("through", "sown", 6),
                        new Outcome.Count("germinated", "sown", 4),
                        new Outcome.Measure("height_mm", 6)),
                AnalysisChoices.USUAL,
                new Expectations(
                        OptionalDouble.of(0.35),
                        OptionalDouble.of(0.15),
                        OptionalDouble.empty(),
                        Map.of(),
                        OptionalDouble.empty()),
                Optional.empty(),
                OptionalDouble.empty(),
                Optional.empty(),
                OptionalInt.empty(),
                List.of(),
                Map.of());
    }

    private static Map<String, String> definitions() {
        var definitions = new LinkedHashMap<String, String>();
        definitions.put("germinated", "radicle 2 mm or longer");
        definitions.put("through", "root seen from below, 3 mm or longer");
        return definitions;
    }

    /** Treatments in an order shuffled with a fixed seed; codes that tell nothing. */
    static Layout layout(Trial trial, int trays) {
        var random = new Random(7);
        var treatments = new ArrayList<Treatment>();
        while (treatments.size() < trays) {
            treatments.addAll(trial.treatments());
        }
        var some = new ArrayList<>(treatments.subList(0, trays));
        java.util.Collections.shuffle(some, random);
        var stands = trial.place().stands();
        var all = new ArrayList<Tray>();
        for (int i = 0; i < trays; i++) {
            var code = "" + (char) ('A' + i % 23) + (100 + i * 37 % 900) + (i >= 900 ? "-" + i / 900 : "");
            all.add(new Tray(trays > 900 ? "T" + i : code, stands.get(i), Map.of(), some.get(i)));
        }
        return new Layout(all);
    }

    static Findings findings(Trial trial, List<OutcomeFindings> outcomes) {
        return new Findings(
                "0.1.0",
                trial.title(),
                true,
                new Findings.SealFinding(
                        "holds",
                        "Plan and layout are those that were sealed before sowing.",
                        20260314L,
                        "XO_RO_SHI_RO_128_PP",
                        "2026-03-14T07:30:00Z",
                        "0.1.0",
                        "3f786850e387550fdab836ed7e6dc881de23001b3f786850e387550fdab836ed",
                        "89e6c98d92887913cadf06b2adb97f26cde4849b89e6c98d92887913cadf06b2"),
                outcomes,
                List.of(new Findings.Warning(
                        "left out",
                        List.of(),
                        "One tray’s height was not read, so that outcome is no longer balanced.")));
    }
}
