package org.fairtray.bench;

import java.util.regex.Pattern;

/** What a photo that a page sends must be, and what its file is called. */
final class Photos {
    private static final Pattern ID = Pattern.compile("[A-Za-z0-9_-]{8,80}");

    private Photos() {}

    /**
     * The name of a photo's file.
     *
     * @throws Refused if it is no photo, or has no proper id
     */
    static String name(String id, String tray, int day, byte[] bytes) {
        if (!ID.matcher(id).matches()) {
            throw new Refused("The photo has no proper id.");
        }
        return tray.replaceAll("[^A-Za-z0-9]", "_") + "-day-" + day + "-" + id + ending(bytes);
    }

    private static String ending(byte[] bytes) {
        boolean jpeg = starts(bytes, 0xff, 0xd8, 0xff);
        if (!jpeg && !starts(bytes, 0x89, 'P', 'N', 'G')) {
            throw new Refused("That is no photo that can be kept: send a JPEG or PNG picture.");
        }
        return jpeg ? ".jpg" : ".png";
    }

    private static boolean starts(byte[] bytes, int... first) {
        for (int i = 0; i < first.length; i++) {
            if (i >= bytes.length || (bytes[i] & 0xff) != first[i]) {
                return false;
            }
        }
        return true;
    }
}
