package org.fairtray.report.pages;

/**
 * A photo with what is said of it.
 *
 * @param source the picture itself, as an address that needs no network; empty where it can't be shown
 * @param about which tray on which day, and what it got
 * @param words of whoever chose it, or why it can't be shown; may be empty
 */
public record PhotoView(String source, String about, String words) {}
