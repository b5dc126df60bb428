package org.intercusp.app.demo;

import java.io.PrintStream;
import java.net.URI;
import java.util.List;

/** The end of the demo in words: what was sent, what was stopped and why, and where to look. */
record DemoReport(PrintStream out) {

  void print(List<DemoClient.Sent> sent, URI service, URI records) {
    out.println("      Sent:");
    sent.stream()
        .filter(DemoClient.Sent::delivered)
        .forEach(
            one -> out.printf("        %s to the %s: %s%n", one.treatment(), one.to(), one.why()));
    out.println("      Stopped:");
    sent.stream()
        .filter(one -> !one.delivered())
        .forEach(
            one ->
                out.printf(
                    "        %s to the %s (%s): %s%n",
                    one.treatment(), one.to(), one.state(), one.why()));
    out.println("      Where to look:");
    out.printf("        the treatments, with findings and drawings  %s/%n", service);
    out.printf("        the deliveries                              %s/deliveries%n", service);
    out.printf("        what the hospital holds                     %s/CarePlan%n", records);
    out.println("      Decision support for licensed clinicians: the clinician decides.");
  }
}
