package org.fairtray.files;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Set;
import java.util.function.Function;
import java.util.regex.Pattern;
import org.snakeyaml.engine.v2.nodes.CollectionNode;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * One value of the plan. What can't be read as asked becomes a problem, and the answer is then empty.
 *
 * @param what what it is in messages, such as its key
 * @param keyLine the line of its key, for a value that isn't there
 */
record PlanValue(String what, Node node, int keyLine, Problems problems) {
    private static final Pattern WHOLE = Pattern.compile("[-+]?\\d{1,9}");
    private static final Pattern DECIMAL = Pattern.compile("[-+]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][-+]?\\d+)?");
    private static final Set<String> NOTHING = Set.of("", "~", "null", "Null", "NULL");

    /** The line it begins in, from 1. */
    int line() {
        return nothing() ? keyLine : node.getStartMark().map(PlanSyntax::line).orElse(keyLine);
    }

    /** Whether no value stands there. */
    private boolean nothing() {
        return node instanceof ScalarNode scalar && scalar.isPlain() && NOTHING.contains(scalar.getValue());
    }

    /** Text that isn't blank, as written, without spaces around it; line breaks are allowed. */
    Optional<String> text() {
        if (!(node instanceof ScalarNode scalar)
                || nothing()
                || scalar.getValue().isBlank()) {
            return refuse("text");
        }
        return Optional.of(scalar.getValue().strip());
    }

    /** A name or other short text: not blank, no spaces around it, no tab or other control character in it. */
    Optional<String> name() {
        var text = node instanceof ScalarNode scalar && !nothing() ? scalar.getValue() : "";
        if (Sheet.trim(text).isEmpty()) {
            return refuse("a name");
        }
        return text.codePoints().noneMatch(PlanValue::breaks)
                        && Sheet.trim(text).equals(text)
                ? Optional.of(text)
                : refuse("a name without tabs, line breaks or spaces around it");
    }

    /** Whether a character can't be shown within a line. */
    private static boolean breaks(int character) {
        return switch (Character.getType(character)) {
            case Character.CONTROL, Character.LINE_SEPARATOR, Character.PARAGRAPH_SEPARATOR -> true;
            default -> false;
        };
    }

    /** One of some words; {@code kind} says of what kind they are, such as "place level". */
    Optional<String> oneOf(String kind, List<String> words) {
        if (!(node instanceof ScalarNode scalar) || nothing()) {
            return refuse(Wording.oneOf(words));
        }
        if (words.contains(scalar.getValue())) {
            return Optional.of(scalar.getValue());
        }
        problems.unknown(line(), kind, scalar.getValue(), words);
        return Optional.empty();
    }

    /** A whole number from low to high. */
    OptionalInt whole(int low, int high) {
        if (node instanceof ScalarNode scalar
                && WHOLE.matcher(scalar.getValue()).matches()) {
            int number = Integer.parseInt(scalar.getValue());
            if (number >= low && number <= high) {
                return OptionalInt.of(number);
            }
        }
        refuse(low == high ? String.valueOf(low) : "a whole number from " + low + " to " + high);
        return OptionalInt.empty();
    }

    /** A number in a range. */
    OptionalDouble number(Range range) {
        if (node instanceof ScalarNode scalar
                && DECIMAL.matcher(scalar.getValue()).matches()) {
            double number = Double.parseDouble(scalar.getValue());
            if (range.holds(number)) {
                return OptionalDouble.of(number);
            }
        }
        refuse("a number " + range.words());
        return OptionalDouble.empty();
    }

    /** The items of a list, each to be called {@code each}; empty, with a problem, where there is none. */
    List<PlanValue> items(String ofWhat, String each) {
        if (!(node instanceof SequenceNode list) || list.getValue().isEmpty()) {
            refuse("a list of " + ofWhat);
            return List.of();
        }
        return list.getValue().stream()
                .map(item -> new PlanValue(each, item, line(), problems))
                .toList();
    }

    /** The keys and values of a mapping, whatever the keys are called; a key that stands twice is a problem. */
    Optional<Keys> keys() {
        return node instanceof MappingNode mapping
                ? Optional.of(Keys.of(mapping, this))
                : refuse("keys with values, 'key: value'");
    }

    /** The keys and values of a mapping; a key that isn't known is a problem. */
    Optional<Keys> keys(List<String> known) {
        var keys = keys();
        keys.ifPresent(k -> k.only(known));
        return keys;
    }

    /** What each item of a list says, leaving out those that are wrong. */
    <T> List<T> each(String ofWhat, String each, Function<PlanValue, Optional<T>> read) {
        return items(ofWhat, each).stream().map(read).flatMap(Optional::stream).toList();
    }

    /** Reports that something else was expected here. */
    <T> Optional<T> refuse(String expected) {
        problems.add(line(), shown(), expected);
        return Optional.empty();
    }

    private String shown() {
        if (nothing()) {
            return "nothing for " + what;
        }
        if (node instanceof ScalarNode scalar) {
            return what + " " + Wording.quote(scalar.getValue());
        }
        boolean none = node instanceof CollectionNode<?> collection
                && collection.getValue().isEmpty();
        var kind = node instanceof SequenceNode ? "list" : "group of keys";
        return (none ? "an empty " : "a ") + kind + " for " + what;
    }

    /** A range of numbers and its words, such as "above 0 and below 1". */
    enum Range {
        /** A proportion, 0 and 1 included. */
        PROPORTION("from 0 to 1"),
        /** A proportion, 0 and 1 left out. */
        INNER_PROPORTION("above 0 and below 1"),
        /** A proportion, 0 included and 1 left out. */
        CORRELATION("from 0 to below 1"),
        /** The error rate of a test. */
        ERROR_RATE("above 0 and at most 0.5"),
        /** An amount that can be nothing. */
        AMOUNT("from 0"),
        /** An amount that can't be nothing. */
        POSITIVE("above 0");

        private final String words;

        Range(String words) {
            this.words = words;
        }

        String words() {
            return words;
        }

        boolean holds(double number) {
            return switch (this) {
                case PROPORTION -> number >= 0 && number <= 1;
                case INNER_PROPORTION -> number > 0 && number < 1;
                case CORRELATION -> number >= 0 && number < 1;
                case ERROR_RATE -> number > 0 && number <= 0.5;
                case AMOUNT -> number >= 0 && Double.isFinite(number);
                case POSITIVE -> number > 0 && Double.isFinite(number);
            };
        }
    }
}
