package org.fairtray.bench.web;

import java.util.LinkedHashMap;
import java.util.Map;

/** How often something may be tried by each: so many at once, and so many a second after that. */
final class Tries {
    private static final int MOST_REMEMBERED = 10_000;

    private final double atOnce;
    private final double perSecond;
    private final Map<String, Left> left = new LinkedHashMap<>(16, 0.75f, true) {
        private static final long serialVersionUID = 1L;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Left> eldest) {
            return size() > MOST_REMEMBERED;
        }
    };

    Tries(double atOnce, double perSecond) {
        this.atOnce = atOnce;
        this.perSecond = perSecond;
    }

    private record Left(double tries, long nanoseconds) {}

    /** Takes one try of someone's, if there is one left. */
    synchronized boolean take(String who) {
        long now = System.nanoTime();
        var before = left.getOrDefault(who, new Left(atOnce, now));
        double tries = Math.min(atOnce, before.tries() + (now - before.nanoseconds()) / 1e9 * perSecond);
        boolean some = tries >= 1;
        left.put(who, new Left(some ? tries - 1 : tries, now));
        return some;
    }
}
