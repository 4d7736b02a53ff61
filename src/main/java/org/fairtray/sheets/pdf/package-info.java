/** Pages drawn as a PDF file: a thin layer that decides nothing. Its libraries are loaded only when something is printed. */
package org.fairtray.sheets.pdf;
