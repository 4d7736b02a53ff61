package org.fairtray.bench.web;

import java.net.Inet4Address;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** Where the bench is to be found. */
final class Addresses {
    private Addresses() {}

    /** This computer's addresses in local networks, those of homes first. */
    static List<String> local() {
        var found = new ArrayList<String>();
        try {
            NetworkInterface.networkInterfaces()
                    .flatMap(NetworkInterface::inetAddresses)
                    .filter(a -> a instanceof Inet4Address && !a.isLoopbackAddress() && !a.isLinkLocalAddress())
                    .sorted((one, other) -> Boolean.compare(other.isSiteLocalAddress(), one.isSiteLocalAddress()))
                    .forEach(a -> found.add(a.getHostAddress()));
        } catch (SocketException e) {
            return List.of();
        }
        return found;
    }

    static String encoded(String part) {
        return URLEncoder.encode(part, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
