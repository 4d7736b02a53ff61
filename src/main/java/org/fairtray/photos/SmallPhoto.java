package org.fairtray.photos;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import javax.imageio.ImageIO;
import net.coobird.thumbnailator.Thumbnails;

/**
 * A photo as it may be handed on: a JPEG of few pixels, turned upright, painted anew. Place, time, camera and owner, which
 * cameras write into their files, are left behind.
 */
public final class SmallPhoto {
    /** The longer side, in pixels. */
    private static final int LONGEST = 1000;
    /** A picture takes three or four bytes a pixel while it is made smaller. */
    private static final long MOST_PIXELS = 60_000_000;

    private static final double QUALITY = 0.8;

    private SmallPhoto() {}

    /**
     * A photo made small.
     *
     * @param photo a JPEG or PNG file
     * @return a JPEG file
     * @throws NoPhotoException if it is no picture, or has too many pixels
     */
    public static byte[] jpeg(byte[] photo) {
        try {
            int longer = longerSide(photo);
            var small = new ByteArrayOutputStream();
            Thumbnails.of(new ByteArrayInputStream(photo))
                    .size(Math.min(longer, LONGEST), Math.min(longer, LONGEST))
                    .imageType(BufferedImage.TYPE_INT_RGB)
                    .outputFormat("jpg")
                    .outputQuality(QUALITY)
                    .toOutputStream(small);
            return small.toByteArray();
        } catch (IOException | IllegalArgumentException | IndexOutOfBoundsException e) {
            throw new NoPhotoException("it is no JPEG or PNG picture that can be read", e);
        }
    }

    /** Looks at the head of the file only: a small file may hold a picture that fills all memory. */
    private static int longerSide(byte[] photo) throws IOException {
        try (var in = ImageIO.createImageInputStream(new ByteArrayInputStream(photo))) {
            var readers = ImageIO.getImageReaders(in);
            if (!readers.hasNext()) {
                throw new NoPhotoException("it is no JPEG or PNG picture that can be read", null);
            }
            var reader = readers.next();
            try {
                reader.setInput(in, true);
                int width = reader.getWidth(0);
                int height = reader.getHeight(0);
                long pixels = (long) width * height;
                if (pixels > MOST_PIXELS) {
                    throw new NoPhotoException(
                            "it has " + pixels / 1_000_000 + " million pixels; " + MOST_PIXELS / 1_000_000
                                    + " million are the most",
                            null);
                }
                return Math.max(width, height);
            } finally {
                reader.dispose();
            }
        }
    }
}
