package org.fairtray.command;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import com.google.gson.Strictness;
import com.google.gson.stream.JsonReader;
import com.google.gson.stream.JsonToken;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringReader;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Arrays;

/**
 * One run of the program, as {@code main} makes it, and what came of it.
 *
 * @param status the exit status
 * @param out all that went to standard output
 * @param err all that went to standard error
 */
public record Run(int status, String out, String err) {

    /** Runs a command; the arguments are written as text. */
    public static Run of(Object... arguments) {
        var out = new StringWriter();
        var err = new StringWriter();
        int status = Fairtray.run(
                new PrintWriter(out),
                new PrintWriter(err),
                Arrays.stream(arguments).map(Object::toString).toArray(String[]::new));
        return new Run(status, out.toString(), err.toString());
    }

    /** The one JSON object that standard output must be, with nothing after it but white space. */
    JsonObject json() {
        try {
            var reader = new JsonReader(new StringReader(out));
            reader.setStrictness(Strictness.STRICT);
            var object = JsonParser.parseReader(reader).getAsJsonObject();
            if (reader.peek() != JsonToken.END_DOCUMENT) {
                throw new AssertionError("something stands after the JSON: " + out);
            }
            return object;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The lines of standard error. */
    String[] complaints() {
        return err.lines().toArray(String[]::new);
    }
}
