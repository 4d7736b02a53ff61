package org.fairtray.bench.web;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.regex.Pattern;
import org.fairtray.bench.CellNow;
import org.fairtray.bench.Counts;
import org.fairtray.bench.Differing;
import org.fairtray.bench.Offer;
import org.fairtray.bench.Photo;
import org.fairtray.bench.Result;
import org.fairtray.bench.Stage;
import org.fairtray.bench.TrialBench;
import org.fairtray.bench.Trials;

/** Counting. Nothing here says what a tray got. */
final class CountPaths {
    private static final int LARGEST_PHOTO = 12 << 20;
    private static final int MOST_COUNTS = 500;
    private static final int EARLIEST_YEAR = 2000;
    private static final int LATEST_YEAR = 2999;
    private static final Pattern WHOLE = Pattern.compile("\\d{1,15}");

    private final Trials trials;

    CountPaths(Trials trials) {
        this.trials = trials;
    }

    List<Route> routes() {
        return List.of(
                Route.of("GET", "/api/trials/*/count", Role.LOOK, this::sheet),
                Route.of("GET", "/api/trials/*/count/since/*", Role.LOOK, this::since),
                Route.of("POST", "/api/trials/*/counts", Role.COUNT, this::count),
                Route.of("POST", "/api/trials/*/sown", Role.COUNT, this::sown),
                Route.of("POST", "/api/trials/*/open", Role.HOST, this::open),
                Route.of("PUT", "/api/trials/*/photos/*/*/*", Role.COUNT, this::photo)
                        .upTo(LARGEST_PHOTO),
                Route.of("GET", "/api/trials/*/photos/*", Role.LOOK, this::onePhoto));
    }

    private TrialBench bench(Ask ask) {
        return TrialPaths.find(trials, ask).bench();
    }

    /** What stands, or changed. Whatever is missing is null. */
    private record Now(
            List<CellNow> cells,
            List<Differing> conflicts,
            List<Photo> photos,
            long last,
            String sownOn,
            Integer today,
            String todayWhy,
            boolean opened,
            String problem) {
        static Now of(Counts now) {
            return new Now(
                    now.cells(),
                    now.conflicts(),
                    now.photos(),
                    now.last(),
                    now.sownOn(),
                    now.today().day(),
                    now.today().why(),
                    now.opened(),
                    now.problem());
        }
    }

    private Answer sheet(Ask ask) {
        var bench = bench(ask);
        return Answer.joined(bench.sheet(), Now.of(bench.counts(0)));
    }

    private Answer since(Ask ask) {
        if (!WHOLE.matcher(ask.part(1)).matches()) {
            return Answer.refusal(400, "The number of the newest entry is none.");
        }
        return Answer.json(Now.of(bench(ask).counts(Long.parseLong(ask.part(1)))));
    }

    private record Offers(List<Offer> counts) {}

    private record Kept(List<Result> results, List<Differing> conflicts, long last) {}

    private Answer count(Ask ask) {
        var offers = ask.json(Offers.class).counts();
        if (offers == null || offers.contains(null)) {
            return Answer.refusal(400, "There is no list of counts.");
        }
        if (offers.size() > MOST_COUNTS) {
            return Answer.refusal(413, "That is too large: more than " + MOST_COUNTS + " counts at once.");
        }
        var bench = bench(ask);
        var results = bench.count(offers, ask.person().name());
        return Answer.json(new Kept(results, bench.conflicts(), bench.last()));
    }

    private record Day(String date) {}

    private Answer sown(Ask ask) {
        try {
            var date = LocalDate.parse(ask.json(Day.class).date());
            if (date.getYear() < EARLIEST_YEAR || date.getYear() > LATEST_YEAR) {
                return Answer.refusal(400, "The year of sowing, " + date.getYear() + ", can't be right.");
            }
            bench(ask).sown(date, ask.person().name());
            return Answer.done();
        } catch (DateTimeException | NullPointerException e) {
            return Answer.refusal(400, "The day of sowing isn't a date.");
        }
    }

    private Answer open(Ask ask) {
        if (TrialPaths.find(trials, ask).stage() == Stage.LAID) {
            return Answer.refusal(409, "Nothing has been counted yet. The seal stays shut until then.");
        }
        bench(ask).open(ask.person().name());
        return Answer.done();
    }

    private record File(String file) {}

    private Answer photo(Ask ask) {
        var day = ask.part(2);
        if (!WHOLE.matcher(day).matches() || day.length() > 4) {
            return Answer.refusal(400, "The day of the photo is none.");
        }
        return Answer.json(new File(bench(ask)
                .photograph(
                        ask.part(3),
                        ask.part(1),
                        Integer.parseInt(day),
                        ask.body(),
                        ask.person().name())));
    }

    private Answer onePhoto(Ask ask) {
        return bench(ask)
                .photo(ask.part(1))
                .map(bytes -> Answer.of(ask.part(1).endsWith(".png") ? "image/png" : "image/jpeg", bytes))
                .orElseGet(() -> Answer.refusal(404, "There is no such photo."));
    }
}
