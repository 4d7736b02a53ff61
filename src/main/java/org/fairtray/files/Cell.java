package org.fairtray.files;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * One cell of a CSV file. What can't be read as asked becomes a problem, and the answer is then empty.
 *
 * @param column the column's name
 * @param text what stands there, without spaces around it; never null
 * @param line where its row begins
 * @param decimalComma whether 1,5 may stand for 1.5: where cells aren't separated by commas
 */
public record Cell(String column, String text, int line, boolean decimalComma, Problems problems) {
    private static final Set<String> WORDS_FOR_NOTHING =
            Set.of("na", "n/a", "#n/a", "nan", "-", "--", "–", "—", "?", "null", "none");
    private static final Pattern WHOLE = Pattern.compile("\\d{1,9}");
    private static final Pattern WHOLE_WITH_POINT = Pattern.compile("(\\d{1,9})[.,]0{1,2}");
    private static final Pattern DECIMAL = Pattern.compile("[-+]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][-+]?\\d+)?");
    private static final Pattern DECIMAL_COMMA = Pattern.compile("[-+]?(\\d+,\\d+|,\\d+)");
    private static final Pattern THOUSANDS = Pattern.compile("[-+]?\\d{1,3}([., '’\\u00a0\\u202f]\\d{3})+([.,]\\d+)?");
    private static final Pattern DATE =
            Pattern.compile("\\d{4}[-/.]\\d{1,2}[-/.]\\d{1,2}([ T].*)?|\\d{1,2}[-/.]\\d{1,2}[-/.](\\d{2}|\\d{4})");
    /** Days since 1900 as spreadsheets count them: 20000 is in 1954, 80000 in 2119. */
    private static final Pattern SERIAL_DATE = Pattern.compile("[2-7]\\d{4}([.,]\\d+)?");

    boolean empty() {
        return text.isEmpty();
    }

    /** A word or code that must be there. */
    Optional<String> word() {
        return empty() ? refuse("a " + column) : Optional.of(text);
    }

    /** The code of a tray; any, where the layout's aren't known. */
    Optional<String> tray(Optional<? extends Collection<String>> codes) {
        var code = word();
        return code.isEmpty() || codes.isEmpty() || codes.get().contains(code.get())
                ? code
                : unknown("tray", codes.get());
    }

    /** A whole number from low to high that must be there. */
    Optional<Integer> number(int low, int high) {
        var expected = high == low ? String.valueOf(low) : "a whole number from " + low + " to " + high;
        return whole(expected).flatMap(n -> n >= low && n <= high ? Optional.of(n) : refuse(expected));
    }

    /** A count of seeds or roots: a whole number from 0. */
    Optional<Integer> count() {
        return whole("a whole number, 0 or more");
    }

    /** Days after sowing. */
    Optional<Integer> day() {
        // No date is written in fewer than five characters, and nearly every day is.
        if (text.length() >= 5
                && (DATE.matcher(text).matches() || SERIAL_DATE.matcher(text).matches())) {
            return refuse("days after sowing as a whole number (sowing is day 0), not a date");
        }
        return whole("days after sowing as a whole number (sowing is day 0)");
    }

    private Optional<Integer> whole(String expected) {
        if (WHOLE.matcher(text).matches()) {
            return Optional.of(Integer.valueOf(text));
        }
        var pointed = WHOLE_WITH_POINT.matcher(text);
        if (pointed.matches()) {
            return refuse("a whole number without point or comma: write " + pointed.group(1));
        }
        return refuse(insteadOf(expected));
    }

    /** A measurement: a decimal number. */
    Optional<Double> measure() {
        boolean comma = DECIMAL_COMMA.matcher(text).matches();
        if (comma && !decimalComma) {
            return refuse("a decimal point: write " + text.replace(',', '.'));
        }
        if (!comma && !DECIMAL.matcher(text).matches()) {
            return refuse(insteadOf("a number"));
        }
        double value = Double.parseDouble(text.replace(',', '.'));
        // Adding 0.0 makes -0 an ordinary 0.
        return Double.isInfinite(value) ? refuse("a smaller number") : Optional.of(value + 0.0);
    }

    /** What to expect instead of text that isn't a number of any kind. */
    private String insteadOf(String expected) {
        if (WORDS_FOR_NOTHING.contains(text.toLowerCase(Locale.ROOT))) {
            return expected + "; leave the cell empty where nothing was read";
        }
        return THOUSANDS.matcher(text).matches() ? expected + ", without thousands separators" : expected;
    }

    /** Reports that something else was expected here. */
    <T> Optional<T> refuse(String expected) {
        problems.add(line, shown(), expected);
        return Optional.empty();
    }

    /** Reports a word that isn't one of those known; {@code kind} says of what kind they are, such as "tray". */
    <T> Optional<T> unknown(String kind, Collection<String> known) {
        problems.unknown(line, kind, text, known);
        return Optional.empty();
    }

    private String shown() {
        return empty() ? "an empty cell in column " + column : Wording.quote(text) + " in column " + column;
    }
}
