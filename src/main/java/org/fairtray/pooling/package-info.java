/** Many growers' trials put together: names and units made one, estimates pooled, and what is to be said of each factor. */
package org.fairtray.pooling;
