/** What is done with a trial's folder from files to files, whoever asks: a command or the bench's page. */
package org.fairtray.jobs;
