/** What a phone's camera reads: QR codes as squares, for paper and for screens. */
package org.fairtray.camera;
