package org.fairtray.files;

import java.math.BigDecimal;
import java.util.Collection;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;

/** The valid name that was probably meant by one that isn't valid. */
public final class Nearest {
    private static final Pattern DECIMAL = Pattern.compile("[-+]?(\\d+([.,]\\d*)?|[.,]\\d+)");
    private static final Pattern JOINTS = Pattern.compile("[\\s_\\u00a0-]+");
    private static final int LONGEST = 100;
    private static final int SHORTEST_START = 3;

    private Nearest() {}

    /** The nearest of the valid names, the first of several equally near; empty where none is plausibly meant. */
    public static Optional<String> to(String found, Collection<String> valid) {
        if (found.isEmpty() || found.length() > LONGEST) {
            return Optional.empty();
        }
        String best = null;
        int least = Integer.MAX_VALUE;
        for (var name : valid) {
            int distance = distance(found, name);
            if (distance < least) {
                best = name;
                least = distance;
            }
        }
        return Optional.ofNullable(best);
    }

    /** The first of the valid names that differs from the one found in no more than case, joints or one letter. */
    static Optional<String> almost(String found, Collection<String> valid) {
        return valid.stream()
                .filter(name -> found.length() <= LONGEST && edits(plain(found), plain(name)) <= 1)
                .findFirst();
    }

    /** How far apart two names are; {@link Integer#MAX_VALUE} where too far for one to be meant by the other. */
    private static int distance(String found, String name) {
        if (DECIMAL.matcher(found).matches() && DECIMAL.matcher(name).matches()) {
            return sameNumber(found, name) ? 0 : Integer.MAX_VALUE;
        }
        var a = plain(found);
        var b = plain(name);
        int edits = edits(a, b);
        if (edits <= allowed(Math.max(a.length(), b.length()))) {
            return edits;
        }
        boolean begins = Math.min(a.length(), b.length()) >= SHORTEST_START && (a.startsWith(b) || b.startsWith(a));
        return begins ? edits : Integer.MAX_VALUE;
    }

    private static int allowed(int length) {
        return length <= 2 ? 0 : Math.min(3, 1 + length / 5);
    }

    private static String plain(String name) {
        return JOINTS.matcher(name.toLowerCase(Locale.ROOT)).replaceAll("");
    }

    private static boolean sameNumber(String a, String b) {
        return number(a).compareTo(number(b)) == 0;
    }

    private static BigDecimal number(String text) {
        return new BigDecimal(text.replace(',', '.'));
    }

    /** Letters to insert, drop, change or swap with their neighbour to turn one name into the other. */
    private static int edits(String a, String b) {
        var steps = new int[a.length() + 1][b.length() + 1];
        for (int i = 0; i <= a.length(); i++) {
            for (int j = 0; j <= b.length(); j++) {
                steps[i][j] = i == 0 ? j : j == 0 ? i : fewest(steps, a, b, i, j);
            }
        }
        return steps[a.length()][b.length()];
    }

    private static int fewest(int[][] steps, String a, String b, int i, int j) {
        int change = a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1;
        int fewest = Math.min(steps[i - 1][j - 1] + change, Math.min(steps[i - 1][j], steps[i][j - 1]) + 1);
        boolean swapped = i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1);
        return swapped ? Math.min(fewest, steps[i - 2][j - 2] + 1) : fewest;
    }
}
