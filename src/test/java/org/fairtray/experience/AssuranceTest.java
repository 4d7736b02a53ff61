package org.fairtray.experience;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.fairtray.design.Generator;
import org.fairtray.design.Randomisation;
import org.fairtray.files.TrialFiles;
import org.fairtray.sizing.SizedLayout;
import org.fairtray.statistics.Interval;
import org.fairtray.trial.Trial;
import org.junit.jupiter.api.Test;

class AssuranceTest {
    private static final Interval ANY = new Interval(0, 1);

    private static Trial plan(String expect) {
        var plan = "{format: 1, trial: A, factors: [{name: soak, levels: [0, 8]}], place: [{name: spot, count: 12}],"
                + " counting: {days: [6], seeds_per_frame: 50}, outcomes: [{name: through, kind: count, day: 6}], expect: {"
                + expect + "}}";
        return TrialFiles.of(Map.of("plan.yaml", plan.getBytes(StandardCharsets.UTF_8)))
                .trial();
    }

    private static double power(double rate, double correlation) {
        var trial = plan("control_rate: " + rate + ", worthwhile: 0.2, tray_correlation: " + correlation);
        var sized = SizedLayout.of(trial, Randomisation.of(trial).draw(Generator.of(1)));
        return sized.at(List.of(sized.option())).get(0).get(0).power();
    }

    private static Experience learned(Experience.Draw... draws) {
        return new Experience(
                "earlier",
                "through",
                3,
                new Learned(0.4, ANY),
                Optional.of(new Learned(0.05, ANY)),
                Map.of("shelf", new Learned(0.3, ANY)),
                Optional.empty(),
                List.of(draws));
    }

    /** Two draws: the assurance is the mean of the two powers, each worked out as that of a plan that expects it. */
    @Test
    void averagesThePowerOverTheDraws() {
        var trial = plan("worthwhile: 0.2");
        var assurance = new Assurance(
                trial, learned(new Experience.Draw(0.3, 0.01, Map.of()), new Experience.Draw(0.5, 0.15, Map.of())));
        var sized = assurance.sized(Randomisation.of(trial).draw(Generator.of(1)));
        var earlier = assurance.earlier(sized);
        var soak = earlier.assurances().get(0);
        assertEquals(power(0.4, 0.05), soak.power(), 1e-12);
        assertEquals((power(0.3, 0.01) + power(0.5, 0.15)) / 2, soak.assurance(), 1e-12);
    }

    @Test
    void saysWhereItsNumbersAreFrom() {
        var trial = plan("worthwhile: 0.2");
        var assurance = new Assurance(trial, learned(new Experience.Draw(0.4, 0.05, Map.of())));
        var sized = assurance.sized(Randomisation.of(trial).draw(Generator.of(1)));
        var sources = sized.assumptions().sources();
        assertTrue(sources.stream()
                .anyMatch(a -> a.key().equals("tray_correlation") && a.source().equals("the trial 'earlier'")));
        assertEquals(
                List.of("control_rate", "tray_correlation"),
                assurance.earlier(sized).figures().stream().map(f -> f.key()).toList());
    }
}
