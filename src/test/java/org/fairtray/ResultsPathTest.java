package org.fairtray;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class ResultsPathTest {
    private static final JsonObject RESULTS = JsonParser.parseString("""
                    {"outcomes": [{"name": "a.b", "trays": 3, "terms": [{"term": "x=1.5", "df": 4}]},
                                  {"name": "c", "trays": null,
                                   "summary": [{"treatment": {"soak": "8", "mat": "coir"}, "rate": 0.5},
                                               {"treatment": {"soak": "8", "mat": "hemp"}, "rate": 0.6}]},
                                  {"name": "twice"}, {"name": "twice"}]}
                    """).getAsJsonObject();

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            outcomes[name=a.b].trays                           | 3
            outcomes[name=a.b].terms[term=x=1.5].df            | 4
            outcomes[name=c].trays                             | null
            outcomes[name=c].summary[treatment=mat:coir,soak:8].rate | 0.5
            """)
    void findsTheOneThatFits(String path, String expected) {
        assertEquals(
                JsonParser.parseString(expected),
                ResultsPath.of(path).in(RESULTS).orElseThrow());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "outcomes[name=none].trays",
                "outcomes[name=twice].name",
                "outcomes[name=c].summary[treatment=soak:8].rate",
                "outcomes[name=c].nothing",
                "outcomes.name",
                "nothing[name=c]"
            })
    void findsNothingElse(String path) {
        assertEquals(java.util.Optional.empty(), ResultsPath.of(path).in(RESULTS));
    }

    @Test
    void refusesWhatIsNoPath() {
        assertThrows(IllegalArgumentException.class, () -> ResultsPath.of("outcomes[name=c"));
    }
}
