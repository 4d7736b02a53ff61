package org.fairtray.trial;

/**
 * A photo that stands in the report.
 *
 * @param file its name in the trial's folder of photos
 * @param tray the code of the tray on it
 * @param day days after sowing
 * @param words what there is to see; may be empty
 */
public record ShownPhoto(String file, String tray, int day, String words) {}
