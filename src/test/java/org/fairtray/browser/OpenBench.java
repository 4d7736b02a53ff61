package org.fairtray.browser;

import static org.junit.jupiter.api.Assumptions.abort;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.fairtray.bench.Refused;
import org.fairtray.bench.web.BenchServer;
import org.openqa.selenium.By;

/** A bench on a free port of this computer. */
final class OpenBench implements AutoCloseable {
    private final BenchServer server;
    private final List<Throwable> defects = new CopyOnWriteArrayList<>();

    OpenBench(Path folder) {
        this(folder, false);
    }

    private OpenBench(Path folder, boolean share) {
        server = BenchServer.open(new BenchServer.Opening(
                folder, 0, share, Clock.system(ZoneId.systemDefault()), code -> {}, defects::add));
    }

    /** One that phones in the local network are let into; the test is skipped where there is no network. */
    static OpenBench shared(Path folder) {
        try {
            return new OpenBench(folder, true);
        } catch (Refused e) {
            return abort("skipped: this computer is in no network");
        }
    }

    /** Its address for phones. */
    String addressForPhones() {
        return server.shared().orElseThrow();
    }

    /** Its address on this computer. */
    String address() {
        return server.address();
    }

    /** The code of the moment. */
    String code() {
        return server.code();
    }

    /** Pairs a browser, under a name. */
    void letIn(Browser browser, String name) {
        browser.go(server.address() + "/pair#" + server.code());
        browser.type(By.name("name"), name);
        browser.press("Join");
        browser.until("not let in", d -> d.getCurrentUrl().contains("/pair") ? null : true);
    }

    /** Faults of ours that the server met. */
    List<Throwable> defects() {
        return defects;
    }

    @Override
    public void close() {
        server.close();
    }
}
