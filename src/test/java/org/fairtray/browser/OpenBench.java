package org.fairtray.browser;

import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import org.fairtray.bench.web.BenchServer;
import org.openqa.selenium.By;

/** A bench on a free port of this computer. */
final class OpenBench implements AutoCloseable {
    private final BenchServer server;
    private final List<Throwable> defects = new CopyOnWriteArrayList<>();

    OpenBench(Path folder) {
        server = BenchServer.open(new BenchServer.Opening(
                folder, 0, false, Clock.system(ZoneId.systemDefault()), code -> {}, defects::add));
    }

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
