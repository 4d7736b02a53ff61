package org.fairtray.season;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * The sowings of a season on one rack, one after the other, that answer most questions: each factor of each trial is a
 * question, answered with the power of its test, and so many sowings of a trial are its layout so often. All ways to divide the
 * days are looked at, one trial after the other (Bellman 1957, Dynamic Programming, chapter 1, from memory).
 *
 * @param days of the season
 * @param sown trials in the order to sow them: those first that answer most for their days
 * @param left days that stay free
 * @param answered questions, on average
 * @param questions in all
 * @param waiting names of the trials that are not sown
 */
public record Season(int days, List<Sown> sown, int left, double answered, int questions, List<String> waiting) {

    /** A gain that is worth no sowing. */
    private static final double NO_MATTER = 0.005;

    public Season {
        sown = List.copyOf(sown);
        waiting = List.copyOf(waiting);
    }

    /** A question and the chance that it is answered. */
    public record Answer(String factor, double power) {}

    /**
     * A trial that is sown.
     *
     * @param sowings how often, each drawn anew
     * @param days that they take in all
     * @param trays of one sowing
     */
    public record Sown(String trial, int sowings, int days, int trays, List<Answer> answers) {
        public Sown {
            answers = List.copyOf(answers);
        }

        private double answered() {
            return answers.stream().mapToDouble(Answer::power).sum();
        }
    }

    /**
     * The best season.
     *
     * @param candidates with rates above 0 and below 1; those that nothing can be tested of answer nothing
     * @param days 1 or more
     */
    public static Season of(List<Candidate> candidates, int days) {
        int[] sowings = best(candidates, days);
        var sown = new ArrayList<Sown>();
        var waiting = new ArrayList<String>();
        for (int i = 0; i < sowings.length; i++) {
            var candidate = candidates.get(i);
            if (sowings[i] == 0) {
                waiting.add(candidate.name());
            } else {
                sown.add(new Sown(
                        candidate.name(),
                        sowings[i],
                        sowings[i] * candidate.days(),
                        candidate.layout().structure().trays().size(),
                        candidate.answers(sowings[i])));
            }
        }
        sown.sort(Comparator.comparingDouble((Sown s) -> -s.answered() / s.days()));
        return new Season(
                days,
                sown,
                days - sown.stream().mapToInt(Sown::days).sum(),
                sown.stream().mapToDouble(Sown::answered).sum(),
                candidates.stream()
                        .mapToInt(c -> c.layout().structure().trial().factors().size())
                        .sum(),
                waiting);
    }

    /** How often each is sown: the fewest sowings among the divisions of the days that answer most. */
    private static int[] best(List<Candidate> candidates, int days) {
        double[] most = new double[days + 1];
        int[][] chosen = new int[candidates.size()][days + 1];
        for (int i = 0; i < candidates.size(); i++) {
            var candidate = candidates.get(i);
            double[] before = most.clone();
            double[] answered = new double[days / candidate.days() + 1];
            for (int s = 0; s < answered.length; s++) {
                answered[s] = candidate.answered(s);
            }
            for (int d = 0; d <= days; d++) {
                for (int s = 1; s * candidate.days() <= d; s++) {
                    double sum = before[d - s * candidate.days()] + answered[s];
                    if (sum > most[d] + NO_MATTER) {
                        most[d] = sum;
                        chosen[i][d] = s;
                    }
                }
            }
        }
        int[] sowings = new int[candidates.size()];
        int left = days;
        for (int i = candidates.size() - 1; i >= 0; i--) {
            sowings[i] = chosen[i][left];
            left -= sowings[i] * candidates.get(i).days();
        }
        return sowings;
    }
}
