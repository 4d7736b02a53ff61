package org.fairtray.bench;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Pattern;
import org.fairtray.files.Problem;
import org.fairtray.files.ReadingCells;
import org.fairtray.journal.Event;
import org.fairtray.journal.Ledger;
import org.fairtray.journal.Slot;
import org.fairtray.trial.Layout;
import org.fairtray.trial.Reading;
import org.fairtray.trial.Tray;
import org.fairtray.trial.Trial;

/** Which counts can be true: the plan's trays, days, frames and columns, and figures that go with one another. */
final class CountRules {
    private static final int LONGEST_NOTE = 500;
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{8,80}");
    private static final Pattern TEXT = Pattern.compile("[^\\p{Cntrl}]*");
    /** A phone that was out of reach longer than this isn't believed on when it counted. */
    private static final Duration LONGEST_AWAY = Duration.ofDays(14);

    private final Trial trial;
    private final Set<String> codes = new HashSet<>();
    private final ReadingCells meaning;
    private final Clock clock;

    CountRules(Trial trial, Layout layout, Clock clock) {
        this.trial = trial;
        this.meaning = new ReadingCells(trial);
        this.clock = clock;
        layout.trays().stream().map(Tray::code).forEach(codes::add);
    }

    /** The codes of the layout's trays. */
    Set<String> trays() {
        return Set.copyOf(codes);
    }

    /** Why an offer makes no sense by itself; empty where it may. */
    Optional<String> senseless(Offer offer, long last) {
        if (offer.id() == null || !ID.matcher(offer.id()).matches()) {
            return Optional.of("The count has no proper id.");
        }
        if (!codes.contains(offer.tray())) {
            return Optional.of("There is no tray '" + offer.tray() + "' in this trial.");
        }
        if (!trial.counting().days().contains(offer.day())) {
            return Optional.of("The plan doesn't count on day " + offer.day() + ".");
        }
        if (offer.frame() < 1 || offer.frame() > trial.counting().framesPerTray()) {
            return Optional.of("There is no frame " + offer.frame() + " in a tray.");
        }
        if (offer.seen() < 0 || offer.seen() > last) {
            return Optional.of("The count is based on one that isn't here. Load the page anew.");
        }
        return senselessText(offer);
    }

    private Optional<String> senselessText(Offer offer) {
        for (var column :
                offer.values() == null ? Set.<String>of() : offer.values().keySet()) {
            if (!meaning.isFigure(column)) {
                return Optional.of("The plan doesn't ask for '" + column + "'.");
            }
        }
        return unfit(offer.note() == null ? "" : offer.note(), "The note");
    }

    private static Optional<String> unfit(String text, String what) {
        if (text.length() > LONGEST_NOTE) {
            return Optional.of(what + " has " + text.length() + " letters; " + LONGEST_NOTE + " are the most.");
        }
        return TEXT.matcher(text).matches()
                ? Optional.empty()
                : Optional.of(what + " has a letter that can't be kept.");
    }

    /**
     * Words as they are kept, without spaces around them.
     *
     * @param what whose words they are, for the message
     * @throws Refused if they are too many, or can't be kept
     */
    static String fit(String words, String what) {
        var bare = words.strip();
        unfit(bare, what).ifPresent(why -> {
            throw new Refused(why);
        });
        return bare;
    }

    /** The count as the journal keeps it. */
    Event.Counted counted(Offer offer, String by) {
        var cells = new LinkedHashMap<String, String>();
        if (offer.values() != null) {
            offer.values().forEach((column, value) -> cells.put(column, value == null ? "" : value.strip()));
        }
        if (offer.sown() != null) {
            cells.put("sown", offer.sown().strip());
        }
        if (offer.note() != null) {
            cells.put("note", offer.note().strip());
        }
        cells.put("by", by);
        cells.put("time", time(offer.saidAt()));
        var seconds = offer.seconds() == null || !(offer.seconds() >= 0)
                ? OptionalDouble.empty()
                : OptionalDouble.of(offer.seconds());
        return new Event.Counted(
                offer.id(),
                new Slot(offer.tray(), offer.day(), offer.frame()),
                offer.seen(),
                cells,
                by,
                Optional.ofNullable(offer.saidAt()),
                seconds,
                offer.settles());
    }

    /** When it was counted, by the bench's own zone; the phone's clock is believed where it may be right. */
    private String time(String saidAt) {
        var now = clock.instant();
        var said = parsed(saidAt)
                .filter(t -> t.isBefore(now.plus(Duration.ofMinutes(5))) && t.isAfter(now.minus(LONGEST_AWAY)));
        var local = LocalDateTime.ofInstant(said.orElse(now), clock.getZone());
        return DateTimeFormatter.ISO_LOCAL_DATE_TIME.format(local.truncatedTo(ChronoUnit.SECONDS));
    }

    private static Optional<Instant> parsed(String time) {
        try {
            return Optional.ofNullable(time).map(Instant::parse);
        } catch (DateTimeException e) {
            return Optional.empty();
        }
    }

    /** Why a count can't be true, held against what stands; empty where it can. */
    Optional<String> impossible(Event.Counted counted, Ledger ledger) {
        var problems = new ArrayList<Problem>();
        meaning.reading(
                counted.slot().tray(), counted.slot().day(), counted.slot().frame(), counted.cells(), problems);
        if (problems.isEmpty()) {
            var after = new LinkedHashMap<>(ledger.standing(counted.slot()).cells());
            after.putAll(ledger.merge(counted).taken());
            problems.addAll(meaning.problems(frame(counted.slot(), ledger, after)));
            var before = ledger.standing(counted.slot()).cells();
            problems.removeAll(meaning.problems(frame(counted.slot(), ledger, before)));
        }
        return problems.stream().findFirst().map(CountRules::sentence);
    }

    private static String sentence(Problem problem) {
        return "%s can't be right: expected %s.".formatted(problem.found(), problem.expected());
    }

    /** The readings of a frame on all days, with one of them as it would be. */
    private List<Reading> frame(Slot slot, Ledger ledger, Map<String, String> cells) {
        var readings = new ArrayList<Reading>();
        for (int day : trial.counting().days()) {
            var other = new Slot(slot.tray(), day, slot.frame());
            var text = other.equals(slot) ? cells : ledger.standing(other).cells();
            if (!text.isEmpty()) {
                meaning.reading(slot.tray(), day, slot.frame(), text, new ArrayList<>())
                        .ifPresent(readings::add);
            }
        }
        return readings;
    }
}
