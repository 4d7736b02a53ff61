/**
 * The trial's folder. Plan, layout, readings and seal are read strictly: everything wrong with a file is reported at
 * once, with its line, what was found, what was expected and the nearest valid name. A file is replaced whole or not at
 * all, and what a grower has made is never replaced unasked.
 */
package org.fairtray.files;
