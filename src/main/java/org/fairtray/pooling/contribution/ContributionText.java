package org.fairtray.pooling.contribution;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonParseException;
import com.google.gson.TypeAdapter;
import com.google.gson.reflect.TypeToken;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.Optional;
import java.util.OptionalDouble;
import org.fairtray.pooling.contribution.Contribution.TrayCounts;
import org.fairtray.trial.Area;

/**
 * A contribution as one line of JSON, for keeping beside its trial. A change of what trials bring gets another {@link
 * #FORMAT}, so that what was kept before is worked out anew.
 */
public final class ContributionText {
    /** The number of this form. */
    public static final int FORMAT = 1;

    private static final Gson PLAIN = new Gson();
    private static final Gson GSON = new GsonBuilder()
            .disableHtmlEscaping()
            .serializeNulls()
            .registerTypeAdapter(
                    new TypeToken<Optional<String>>() {}.getType(), new OrNull<>(PLAIN.getAdapter(String.class)))
            .registerTypeAdapter(
                    new TypeToken<Optional<Area>>() {}.getType(), new OrNull<>(PLAIN.getAdapter(Area.class)))
            .registerTypeAdapter(
                    new TypeToken<Optional<TrayCounts>>() {}.getType(),
                    new OrNull<>(PLAIN.getAdapter(TrayCounts.class)))
            .registerTypeAdapter(OptionalDouble.class, new NumberOrNull())
            .create();

    private ContributionText() {}

    /** A contribution as text. */
    public static String of(Contribution contribution) {
        return GSON.toJson(contribution);
    }

    /**
     * The contribution that a text holds.
     *
     * @throws IllegalArgumentException if it isn't one
     */
    public static Contribution read(String text) {
        try {
            var read = GSON.fromJson(text, Contribution.class);
            if (read == null) {
                throw new IllegalArgumentException("an empty text: expected a contribution");
            }
            return read;
        } catch (JsonParseException e) {
            throw new IllegalArgumentException("text that isn't a contribution", e);
        }
    }

    /** A value, or null for none. */
    private static final class OrNull<V> extends TypeAdapter<Optional<V>> {
        private final TypeAdapter<V> inner;

        OrNull(TypeAdapter<V> inner) {
            this.inner = inner;
        }

        @Override
        public void write(JsonWriter out, Optional<V> value) throws IOException {
            inner.write(out, value.orElse(null));
        }

        @Override
        public Optional<V> read(JsonReader in) throws IOException {
            return Optional.ofNullable(inner.read(in));
        }
    }

    /** A number, or null for none. */
    private static final class NumberOrNull extends TypeAdapter<OptionalDouble> {
        @Override
        public void write(JsonWriter out, OptionalDouble value) throws IOException {
            if (value.isPresent()) {
                out.value(value.getAsDouble());
            } else {
                out.nullValue();
            }
        }

        @Override
        public OptionalDouble read(JsonReader in) throws IOException {
            if (in.peek() == JsonToken.NULL) {
                in.nextNull();
                return OptionalDouble.empty();
            }
            return OptionalDouble.of(in.nextDouble());
        }
    }
}
