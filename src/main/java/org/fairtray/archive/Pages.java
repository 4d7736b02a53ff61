package org.fairtray.archive;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Iterator;
import java.util.NoSuchElementException;
import java.util.Spliterator;
import java.util.Spliterators;
import java.util.function.Function;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.fairtray.archive.Reading.Page;
import org.fairtray.archive.Reading.Place;

/**
 * Everything that a search finds, one page in memory at a time. Between pages nothing of the database is held: whoever
 * reads slowly, or stops half-way, is in nobody's way.
 */
final class Pages<T> implements Iterator<T> {
    private final Function<Place, Page<T>> asked;
    private final Deque<T> ahead = new ArrayDeque<>();
    private Place place = Place.START;
    private boolean ended;

    private Pages(Function<Place, Page<T>> asked) {
        this.asked = asked;
    }

    /** @param asked gives the page behind a place */
    static <T> Stream<T> stream(Function<Place, Page<T>> asked) {
        var order = Spliterator.ORDERED | Spliterator.NONNULL;
        return StreamSupport.stream(Spliterators.spliteratorUnknownSize(new Pages<>(asked), order), false);
    }

    @Override
    public boolean hasNext() {
        if (ahead.isEmpty() && !ended) {
            var page = asked.apply(place);
            ahead.addAll(page.content());
            place = page.end();
            ended = page.content().isEmpty();
        }
        return !ahead.isEmpty();
    }

    @Override
    public T next() {
        if (!hasNext()) {
            throw new NoSuchElementException("all pages are read");
        }
        return ahead.removeFirst();
    }
}
