package org.fairtray.packs;

/**
 * How large a table is at most, whatever stands in quotes.
 *
 * @param lines line ends, and one where the last line has none
 * @param columns separators in one line and one, at most
 * @param longestLine bytes
 */
record TableSize(int lines, int columns, int longestLine) {

    static TableSize of(byte[] table) {
        int lines = 0;
        int columns = 1;
        int mostColumns = 1;
        int length = 0;
        int longest = 0;
        for (byte letter : table) {
            length++;
            if (letter == '\n') {
                lines++;
                columns = 1;
                length = 0;
            } else if (letter == ',' || letter == ';' || letter == '\t' || letter == '|') {
                columns++;
            } else if (letter == '\r') {
                lines++;
            }
            mostColumns = Math.max(mostColumns, columns);
            longest = Math.max(longest, length);
        }
        return new TableSize(length > 0 ? lines + 1 : lines, mostColumns, longest);
    }
}
