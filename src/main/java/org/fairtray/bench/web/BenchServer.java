package org.fairtray.bench.web;

import java.io.IOException;
import java.net.BindException;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.eclipse.jetty.http.UriCompliance;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.util.component.LifeCycle;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import org.fairtray.bench.Refused;
import org.fairtray.bench.Trials;

/** The bench, open for asks until it is closed. Heard on this computer alone unless it is shared. */
public final class BenchServer implements AutoCloseable {
    private static final String HERE = "127.0.0.1";
    private static final int USUAL_PORT = 80;
    private static final int THREADS = 32;
    /** Lines that are open at a time; whoever comes after waits. */
    private static final int LINES = 500;

    private static final int IDLE = 30_000;

    private final Server server;
    private final Trials trials;
    private final People people;
    private final int port;
    private final Optional<String> shared;

    private BenchServer(Server server, Trials trials, People people, int port, Optional<String> shared) {
        this.server = server;
        this.trials = trials;
        this.people = people;
        this.port = port;
        this.shared = shared;
    }

    /**
     * How a bench is opened.
     *
     * @param port to listen on; 0 for any that is free
     * @param share whether phones in the local network are heard too
     * @param onCode is told each code that takes the place of a used one
     * @param onDefect is told what went wrong by a fault of ours
     */
    public record Opening(
            Path folder, int port, boolean share, Clock clock, Consumer<String> onCode, Consumer<Throwable> onDefect) {}

    /**
     * Opens the bench.
     *
     * @throws Refused if the port is taken, or there is no network to share it on
     * @throws org.fairtray.files.ProblemsException if there is no such folder
     */
    public static BenchServer open(Opening opening) {
        var server = new Server(new QueuedThreadPool(THREADS));
        var connector = connector(server, opening);
        var local = opening.share() ? Addresses.local() : List.<String>of();
        if (opening.share() && local.isEmpty()) {
            throw new Refused(
                    "This computer is in no network, so phones can't reach it. Leave --share away, or join one.");
        }
        listen(connector, opening.port());
        int port = connector.getLocalPort();
        var shared = local.stream().findFirst().map(a -> "http://" + named(a, port));
        // With the port, because browsers send a cookie to every port of a computer, and it may have several benches.
        var cookie = "bench-" + port;
        try {
            var trials = new Trials(opening.folder(), opening.clock());
            var people = new People(opening.folder(), opening.clock(), opening.onCode());
            server.setHandler(new Doorway(
                    routes(trials, people, shared, cookie), people, hosts(local, port), cookie, opening.onDefect()));
            server.setErrorHandler(Rules::refuse);
            LifeCycle.start(server);
            return new BenchServer(server, trials, people, port, shared);
        } catch (RuntimeException e) {
            connector.close();
            throw e;
        }
    }

    private static ServerConnector connector(Server server, Opening opening) {
        var http = new HttpConfiguration();
        http.setSendServerVersion(false);
        http.setRequestHeaderSize(16 << 10);
        http.setUriCompliance(UriCompliance.DEFAULT.with("bench", UriCompliance.Violation.AMBIGUOUS_PATH_ENCODING));
        var connector = new ServerConnector(server, new HttpConnectionFactory(http));
        connector.setHost(opening.share() ? "0.0.0.0" : HERE);
        connector.setPort(opening.port());
        connector.setIdleTimeout(IDLE);
        server.addConnector(connector);
        server.addBean(new NetworkConnectionLimit(LINES, connector));
        return connector;
    }

    private static void listen(ServerConnector connector, int port) {
        try {
            connector.open();
        } catch (IOException e) {
            boolean taken = e instanceof BindException || e.getCause() instanceof BindException;
            throw new Refused("Port " + port + (taken ? " is taken, maybe by another bench." : " can't be opened.")
                    + " Choose another by --port.");
        }
    }

    private static List<Route> routes(Trials trials, People people, Optional<String> shared, String cookie) {
        var routes = new ArrayList<Route>();
        routes.addAll(new PeoplePaths(people, shared, cookie).routes());
        routes.addAll(new TrialPaths(trials, shared).routes());
        routes.addAll(new CountPaths(trials).routes());
        routes.addAll(new ReadPaths(trials).routes());
        return List.copyOf(routes);
    }

    /** Only these names are answered to, so that no page from elsewhere can pass for the bench by a name of its own. */
    private static Set<String> hosts(List<String> local, int port) {
        var hosts = new HashSet<String>();
        hosts.add(named(HERE, port));
        hosts.add(named("localhost", port));
        local.forEach(a -> hosts.add(named(a, port)));
        return Set.copyOf(hosts);
    }

    /** As browsers say it, who leave the usual port away. */
    private static String named(String host, int port) {
        return port == USUAL_PORT ? host : host + ":" + port;
    }

    /** Its address on this computer. */
    public String address() {
        return "http://" + named(HERE, port);
    }

    /** Its address for phones, where it is shared. */
    public Optional<String> shared() {
        return shared;
    }

    /** What stands in the way of keeping anything, trial by trial. */
    public List<String> obstacles() {
        var obstacles = new ArrayList<String>();
        trials.all().forEach((name, desk) -> desk.readOnly().ifPresent(o -> obstacles.add(name + ": " + o)));
        return obstacles;
    }

    /** The code of the moment, by which one more browser comes in. */
    public String code() {
        return people.code();
    }

    /** Where the browser that the bench itself opens comes in. */
    public String opening() {
        return address() + "/pair#" + people.ownCode();
    }

    /** Where a phone comes in by the code of the moment, as a camera code in letters for a terminal; none if not shared. */
    public Optional<String> pairingCode() {
        return shared.map(url -> new CameraCode(url + "/pair#" + people.code()).letters());
    }

    /** Waits until it is closed. */
    public void await() throws InterruptedException {
        server.join();
    }

    /** Answers nothing more, and writes every readings.csv a last time. */
    @Override
    public void close() {
        try {
            LifeCycle.stop(server);
        } finally {
            trials.close();
        }
    }
}
