package org.fairtray.trial;

/**
 * A tray that is moved.
 *
 * @param day days after sowing
 * @param tray its code
 * @param to where it stands from then on; it may be where it stood before
 */
public record Move(int day, String tray, Stand to) {}
