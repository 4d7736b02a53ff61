package org.fairtray.archive;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayDeque;
import java.util.Deque;
import javax.sql.DataSource;
import org.jdbi.v3.core.ConnectionFactory;

/** Connections that are made when they are needed and kept for the next who asks: opening one takes a server long. */
final class Connections implements ConnectionFactory, AutoCloseable {
    private static final int KEPT = 4;

    private final DataSource source;
    private final Deque<Connection> idle = new ArrayDeque<>();
    private boolean closed;

    Connections(DataSource source) {
        this.source = source;
    }

    @Override
    public Connection openConnection() throws SQLException {
        synchronized (this) {
            while (!idle.isEmpty()) {
                var one = idle.pop();
                if (!one.isClosed()) {
                    return one;
                }
            }
        }
        return source.getConnection();
    }

    @Override
    public void closeConnection(Connection one) throws SQLException {
        synchronized (this) {
            if (!closed && idle.size() < KEPT && !one.isClosed() && one.getAutoCommit()) {
                idle.push(one);
                return;
            }
        }
        one.close();
    }

    @Override
    public synchronized void close() throws SQLException {
        closed = true;
        while (!idle.isEmpty()) {
            idle.pop().close();
        }
    }
}
