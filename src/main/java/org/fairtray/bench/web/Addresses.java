package org.fairtray.bench.web;

import java.net.DatagramSocket;
import java.net.Inet4Address;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.InterfaceAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.net.URLEncoder;
import java.net.UnknownHostException;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Where the bench is to be found, and who is near it. */
final class Addresses {
    /** An address that nobody has; it is never sent anything, only asked which way it would go. */
    private static final byte[] NOBODY = {(byte) 198, 51, 100, 1};

    private static final int PORT_OF_NOBODY = 9;

    private Addresses() {}

    /** This computer's addresses in local networks; first the one by which it reaches the others, then those of homes. */
    static List<String> local() {
        var usual = usual();
        return networks()
                .map(InterfaceAddress::getAddress)
                .filter(a -> a instanceof Inet4Address && !a.isLoopbackAddress() && !a.isLinkLocalAddress())
                .sorted(Comparator.comparing((InetAddress a) -> !usual.equals(Optional.of(a)))
                        .thenComparing(a -> !a.isSiteLocalAddress()))
                .map(InetAddress::getHostAddress)
                .distinct()
                .toList();
    }

    /** What this computer is called in each of its networks; none of tunnels to far away. */
    private static Stream<InterfaceAddress> networks() {
        try {
            return NetworkInterface.networkInterfaces()
                    .filter(Addresses::isOfNeighbours)
                    .flatMap(n -> n.getInterfaceAddresses().stream())
                    .toList()
                    .stream();
        } catch (SocketException e) {
            return Stream.empty();
        }
    }

    private static boolean isOfNeighbours(NetworkInterface network) {
        try {
            return network.isUp() && !network.isPointToPoint();
        } catch (SocketException e) {
            return false;
        }
    }

    private static Optional<InetAddress> usual() {
        try (var socket = new DatagramSocket()) {
            socket.connect(new InetSocketAddress(InetAddress.getByAddress(NOBODY), PORT_OF_NOBODY));
            return Optional.of(socket.getLocalAddress());
        } catch (SocketException | UnknownHostException | IllegalArgumentException e) {
            return Optional.empty();
        }
    }

    /** Whether an address is this computer's own, for itself. */
    static boolean isHere(String address) {
        return parsed(address).filter(InetAddress::isLoopbackAddress).isPresent();
    }

    /** Whether an address is this computer, in a network that it is in, or of those that are used at homes and farms alone. */
    static boolean isNear(String address) {
        return parsed(address)
                .filter(a -> a.isLoopbackAddress()
                        || a.isSiteLocalAddress()
                        || networks().anyMatch(n -> sameNetwork(n, a)))
                .isPresent();
    }

    private static Optional<InetAddress> parsed(String address) {
        try {
            return Optional.of(InetAddress.getByName(address));
        } catch (UnknownHostException e) {
            return Optional.empty();
        }
    }

    private static boolean sameNetwork(InterfaceAddress own, InetAddress other) {
        byte[] one = own.getAddress().getAddress();
        byte[] two = other.getAddress();
        if (one.length != two.length || own.getNetworkPrefixLength() <= 0) {
            return false;
        }
        for (int bit = 0; bit < own.getNetworkPrefixLength(); bit++) {
            int mask = 0x80 >> (bit % 8);
            if (((one[bit / 8] ^ two[bit / 8]) & mask) != 0) {
                return false;
            }
        }
        return true;
    }

    static String encoded(String part) {
        return URLEncoder.encode(part, StandardCharsets.UTF_8).replace("+", "%20");
    }
}
