package org.fairtray.packs;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonNull;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import com.google.gson.stream.MalformedJsonException;
import java.io.EOFException;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;

/**
 * JSON from a stranger: one value in UTF-8, no key twice in one object, since readers differ in which of the two they
 * take, and of bearable depth.
 */
public final class StrictJson {
    private static final int DEEPEST = 40;
    private static final int LONGEST_NUMBER = 40;

    private final JsonReader reader;
    private int depth;

    private StrictJson(JsonReader reader) {
        this.reader = reader;
    }

    /** Why a text isn't such JSON, as what was found. */
    public static final class BadJsonException extends Exception {
        private static final long serialVersionUID = 1L;

        BadJsonException(String found) {
            super(found);
        }
    }

    /**
     * The object that a file holds.
     *
     * @throws BadJsonException if it holds something else; the message says what
     */
    public static JsonObject object(byte[] bytes) throws BadJsonException {
        try {
            var text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes));
            var json = new JsonReader(new StringReader(text.toString()));
            json.setStrictness(Strictness.STRICT);
            var value = new StrictJson(json).value();
            if (json.peek() != JsonToken.END_DOCUMENT || !value.isJsonObject()) {
                throw new BadJsonException("something else than one JSON object");
            }
            return value.getAsJsonObject();
        } catch (CharacterCodingException e) {
            throw new BadJsonException("bytes that aren't UTF-8");
        } catch (MalformedJsonException | EOFException | IllegalStateException | NumberFormatException e) {
            throw new BadJsonException("text that isn't JSON");
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private JsonElement value() throws IOException, BadJsonException {
        if (++depth > DEEPEST) {
            throw new BadJsonException("lists and keys more than " + DEEPEST + " deep");
        }
        var value = switch (reader.peek()) {
            case BEGIN_OBJECT -> keys();
            case BEGIN_ARRAY -> list();
            case STRING -> new JsonPrimitive(reader.nextString());
            case NUMBER -> number();
            case BOOLEAN -> new JsonPrimitive(reader.nextBoolean());
            case NULL -> nothing();
            case NAME, END_OBJECT, END_ARRAY, END_DOCUMENT -> throw new BadJsonException("text that isn't JSON");
        };
        depth--;
        return value;
    }

    private JsonElement nothing() throws IOException {
        reader.nextNull();
        return JsonNull.INSTANCE;
    }

    private JsonElement number() throws IOException, BadJsonException {
        var digits = reader.nextString();
        if (digits.length() > LONGEST_NUMBER) {
            throw new BadJsonException("a number of " + digits.length() + " digits");
        }
        return new JsonPrimitive(new BigDecimal(digits));
    }

    private JsonElement list() throws IOException, BadJsonException {
        var list = new JsonArray();
        reader.beginArray();
        while (reader.hasNext()) {
            list.add(value());
        }
        reader.endArray();
        return list;
    }

    private JsonElement keys() throws IOException, BadJsonException {
        var object = new JsonObject();
        reader.beginObject();
        while (reader.hasNext()) {
            var key = reader.nextName();
            if (object.has(key)) {
                throw new BadJsonException("a key twice in one object");
            }
            object.add(key, value());
        }
        reader.endObject();
        return object;
    }
}
