package org.fairtray.trial;

/**
 * Where a counting frame lies in a tray.
 *
 * @param tray the tray's code
 * @param frame its number, from 1
 * @param fromLeft cm from the tray's left edge to the frame's
 * @param fromFront cm from the tray's front edge to the frame's
 */
public record FrameSpot(String tray, int frame, double fromLeft, double fromFront) {}
