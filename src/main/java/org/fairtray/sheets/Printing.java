package org.fairtray.sheets;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.Optional;
import org.fairtray.sheets.paper.Paper;

/**
 * How sheets are wanted.
 *
 * @param address where the counting page of the bench answers, such as http://192.168.1.20:8080, without a slash at its end
 */
public record Printing(Paper paper, Optional<String> address) {

    /** What the camera code of a tray holds: the address of its page, or its code alone where there is no address. */
    String cameraCode(String tray) {
        return address.map(a -> a + "/tray/"
                        + URLEncoder.encode(tray, StandardCharsets.UTF_8).replace("+", "%20"))
                .orElse(tray);
    }
}
