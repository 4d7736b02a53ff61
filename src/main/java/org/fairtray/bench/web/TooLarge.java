package org.fairtray.bench.web;

import java.io.IOException;

/** Something that was sent is larger than anything of its kind may be. */
final class TooLarge extends IOException {
    private static final long serialVersionUID = 1L;

    TooLarge(int largest) {
        super("more than " + largest + " bytes");
    }
}
