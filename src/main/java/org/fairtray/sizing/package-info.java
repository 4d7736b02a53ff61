/** What a trial would show before it is sown: invented readings, and the power of a factor's test. */
package org.fairtray.sizing;
