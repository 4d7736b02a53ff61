package org.fairtray.report;

import java.nio.file.*;

public class ReportLook {
    public static void main(String[] a) throws Exception {
        long t0 = System.nanoTime();
        if (a.length > 0) {
            Report.prepare();
            System.out.println("prepare " + (System.nanoTime() - t0) / 1e6);
            t0 = System.nanoTime();
        }
        var s = SampleFindings.splitPlot();
        var html = Report.of(s.trial(), s.layout(), s.findings())
                .labelled("Invented data: no such trial was ever sown.")
                .html();
        System.out.println("first " + (System.nanoTime() - t0) / 1e6 + " ms, " + html.length());
        t0 = System.nanoTime();
        s.html();
        System.out.println("second " + (System.nanoTime() - t0) / 1e6);
        Files.writeString(Path.of("/tmp/report.html"), html);
        Files.writeString(
                Path.of("/tmp/report-hostile.html"), SampleFindings.hostile().html());
        Files.writeString(
                Path.of("/tmp/report-tiny.html"), SampleFindings.tiny().html());
        t0 = System.nanoTime();
        var m = SampleFindings.many(60, 10, 40).html();
        System.out.println("600: " + m.length() + " " + (System.nanoTime() - t0) / 1e6);
        Files.writeString(Path.of("/tmp/report-600.html"), m);
        t0 = System.nanoTime();
        m = SampleFindings.many(200, 10, 40).html();
        System.out.println("2000: " + m.length() + " " + (System.nanoTime() - t0) / 1e6);
    }
}
