/** The bench as a web server: who may do what, what is asked and what is answered. What it serves is in {@code bench}. */
package org.fairtray.bench.web;
