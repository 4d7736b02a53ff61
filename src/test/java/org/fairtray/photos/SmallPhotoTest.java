package org.fairtray.photos;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;

/** Photos that are handed on: small, upright, and silent about where and when they were taken. */
class SmallPhotoTest {
    private static final String SECRET = "at home 48.1 N";

    /** A picture whose upper left quarter is red, the rest green. */
    private static BufferedImage quarter(int width, int height) {
        var image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        for (int x = 0; x < width; x++) {
            for (int y = 0; y < height; y++) {
                boolean red = x < width / 2 && y < height / 2;
                image.setRGB(x, y, (red ? Color.RED : Color.GREEN).getRGB());
            }
        }
        return image;
    }

    private static byte[] file(BufferedImage image, String format) throws IOException {
        var out = new ByteArrayOutputStream();
        ImageIO.write(image, format, out);
        return out.toByteArray();
    }

    /**
     * A JPEG as a phone writes it: held sideways, with what only its owner should know. Exif 2.3: tag 0x0112 is the
     * orientation, 6 says that the first row is the right side; tag 0x010e is a description.
     */
    private static byte[] fromAPhone(BufferedImage image) throws IOException {
        var description = (SECRET + "\0").getBytes(StandardCharsets.US_ASCII);
        int tableSize = 2 + 2 * 12 + 4;
        var tiff = ByteBuffer.allocate(8 + tableSize + description.length);
        tiff.put(new byte[] {'M', 'M', 0, 42}).putInt(8).putShort((short) 2);
        tiff.putShort((short) 0x010e)
                .putShort((short) 2)
                .putInt(description.length)
                .putInt(8 + tableSize);
        tiff.putShort((short) 0x0112)
                .putShort((short) 3)
                .putInt(1)
                .putShort((short) 6)
                .putShort((short) 0);
        tiff.putInt(0).put(description);
        var jpeg = file(image, "jpg");
        int segment = 2 + 6 + tiff.capacity();
        var all = ByteBuffer.allocate(jpeg.length + 2 + segment);
        all.put(jpeg, 0, 2).put((byte) 0xff).put((byte) 0xe1).putShort((short) segment);
        all.put(new byte[] {'E', 'x', 'i', 'f', 0, 0}).put(tiff.array());
        return all.put(jpeg, 2, jpeg.length - 2).array();
    }

    private static BufferedImage read(byte[] jpeg) throws IOException {
        return ImageIO.read(new ByteArrayInputStream(jpeg));
    }

    private static boolean isRed(BufferedImage image, double x, double y) {
        var colour = new Color(image.getRGB((int) (x * image.getWidth()), (int) (y * image.getHeight())));
        return colour.getRed() > 150 && colour.getGreen() < 100;
    }

    @Test
    void aBigPhotoIsMadeSmallInItsProportion() throws IOException {
        var small = read(SmallPhoto.jpeg(file(quarter(3000, 1500), "jpg")));
        assertEquals(1000, small.getWidth());
        assertEquals(500, small.getHeight());
        assertTrue(isRed(small, 0.25, 0.25));
        assertFalse(isRed(small, 0.75, 0.25));
    }

    @Test
    void aPhotoOfAPhoneIsTurnedUprightAndSaysNothingElse() throws IOException {
        var phone = fromAPhone(quarter(600, 400));
        assertTrue(new String(phone, StandardCharsets.ISO_8859_1).contains(SECRET));
        var bytes = SmallPhoto.jpeg(phone);
        assertFalse(new String(bytes, StandardCharsets.ISO_8859_1).contains(SECRET));
        assertFalse(new String(bytes, StandardCharsets.ISO_8859_1).contains("Exif"));
        var small = read(bytes);
        assertTrue(small.getWidth() < small.getHeight(), "held upright: its first row is the right side");
        assertTrue(isRed(small, 0.75, 0.25), "what was upper left is upper right");
        assertFalse(isRed(small, 0.25, 0.25));
    }

    @Test
    void aSeeThroughPictureBecomesAPhotoToo() throws IOException {
        var image = new BufferedImage(40, 30, BufferedImage.TYPE_INT_ARGB);
        image.setRGB(3, 3, 0x80ff0000);
        assertEquals(40, read(SmallPhoto.jpeg(file(image, "png"))).getWidth());
    }

    @Test
    void whatIsNoPictureIsRefused() throws IOException {
        var jpeg = file(quarter(300, 200), "jpg");
        var headAlone = java.util.Arrays.copyOf(jpeg, 30);
        for (var bytes : new byte[][] {
            {}, {(byte) 0xff, (byte) 0xd8, (byte) 0xff}, headAlone, "<svg>".getBytes(StandardCharsets.UTF_8)
        }) {
            var e = assertThrows(NoPhotoException.class, () -> SmallPhoto.jpeg(bytes));
            assertEquals("it is no JPEG or PNG picture that can be read", e.getMessage());
        }
    }

    /** A few bytes that say they hold 50,000 by 50,000 pixels. */
    @Test
    void aSmallFileOfAHugePictureIsRefusedUnread() {
        var head = ByteBuffer.allocate(13)
                .putInt(50_000)
                .putInt(50_000)
                .put(new byte[] {8, 2, 0, 0, 0})
                .array();
        var crc = new CRC32();
        crc.update("IHDR".getBytes(StandardCharsets.US_ASCII));
        crc.update(head);
        var png = ByteBuffer.allocate(8 + 25)
                .put(new byte[] {(byte) 0x89, 'P', 'N', 'G', '\r', '\n', 0x1a, '\n'})
                .putInt(13)
                .put("IHDR".getBytes(StandardCharsets.US_ASCII))
                .put(head)
                .putInt((int) crc.getValue());
        var e = assertThrows(NoPhotoException.class, () -> SmallPhoto.jpeg(png.array()));
        assertEquals("it has 2500 million pixels; 60 million are the most", e.getMessage());
    }
}
