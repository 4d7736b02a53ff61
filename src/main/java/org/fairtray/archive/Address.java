package org.fairtray.archive;

import java.time.Duration;
import java.util.Map;
import javax.sql.DataSource;

/** Where an archive is. */
sealed interface Address permits FileAddress, ServerAddress {
    /**
     * An address as a grower types it.
     *
     * @param environment the variables of the process: PGPASSWORD is one
     * @throws org.fairtray.files.ProblemsException if nothing can be meant by it
     */
    static Address of(String typed, Map<String, String> environment) {
        if (ServerAddress.isOne(typed)) {
            return ServerAddress.of(typed, environment);
        }
        return FileAddress.of(typed);
    }

    /** What messages call it; no password stands in it. */
    String shown();

    /** How connections to it are made; each waits so long for others who are writing. */
    DataSource source(Duration patience);

    /** The words in the migrations that differ from one database to the other. */
    Map<String, String> types();

    /** Asks for the names of the tables that are there, whoever made them. */
    String tables();
}
