/** Whether a trial is fair: the faults of its layout, and whether chance decided, each with its remedy. */
package org.fairtray.audit;
