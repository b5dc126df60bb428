package org.intercusp.app.demo;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.net.ServerSocket;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.stream.Stream;
import org.intercusp.app.Intercusp;
import org.springframework.boot.SpringApplication;
import org.springframework.context.ConfigurableApplicationContext;

/**
 * The whole path in one go: a real FHIR records server, the service beside it, the sample
 * treatments through the public HTTP door, and what became of each. With {@code once} it ends by
 * itself and fails when anything went another way than the samples say.
 */
public final class Demo {

  private static final Path WORK = Path.of("target", "demo");
  private static final Path SAMPLES = Path.of("sample-bundles");

  private final PrintStream out;
  private final boolean once;
  private final long begin = System.nanoTime();

  private Demo(PrintStream out, boolean once) {
    this.out = out;
    this.once = once;
  }

  /** Runs the demo until Ctrl-C, or to its end with {@code once}. */
  public static void main(String[] args) throws Exception {
    new Demo(System.out, List.of(args).contains("once")).run();
  }

  private void run() throws Exception {
    Path data = emptied(WORK.resolve("data"));
    phase(
        1, "starting a FHIR records server (HAPI FHIR, its own process) and the service beside it");
    int port = freePort();
    CompletableFuture<RecordsServer> starting = CompletableFuture.supplyAsync(() -> records(port));
    ConfigurableApplicationContext service = start(data, port);
    URI base =
        URI.create(
            "http://127.0.0.1:"
                + service.getEnvironment().getRequiredProperty("local.server.port"));
    say("service on an embedded database ready at %s", base);

    phase(2, "waiting for the records server");
    RecordsServer records = starting.join();
    Runtime.getRuntime().addShutdownHook(new Thread(records::close));
    say("ready at %s after %.1f s", records.baseUrl(), records.startUp().toMillis() / 1000.0);

    DemoClient client = new DemoClient(base);
    phase(3, "submitting the sample treatments to POST /treatments");
    List<DemoClient.Submitted> submitted = new ArrayList<>();
    for (Path sample : samples()) {
      DemoClient.Submitted one = client.submit(sample);
      submitted.add(one);
      say("%-44s %s", one.treatment(), one.shown());
    }
    phase(
        4,
        "delivering those that may go; what the hospital may not have is offered to the referrer");
    List<DemoClient.Sent> sent = new ArrayList<>();
    for (DemoClient.Submitted one : submitted) {
      DemoClient.Sent toHospital = deliver(client, one, "hospital");
      sent.add(toHospital);
      if (toHospital.stopped()) {
        sent.add(deliver(client, one, "referrer"));
      }
    }
    phase(5, "what happened");
    new DemoReport(out).print(sent, base, records.baseUrl());
    finish(service, sent);
  }

  private ConfigurableApplicationContext start(Path data, int port) {
    String records = "http://127.0.0.1:" + port + "/fhir";
    SpringApplication application = new SpringApplication(Intercusp.class);
    return application.run(
        "--server.port=" + (once ? 0 : 8080),
        "--intercusp.data=" + data.toAbsolutePath(),
        "--intercusp.recipients.hospital.title=Harbour General Hospital",
        "--intercusp.recipients.hospital.url=" + records,
        "--intercusp.recipients.hospital.scope=hospital",
        "--intercusp.recipients.referrer.title=Quay Street Dental Practice",
        "--intercusp.recipients.referrer.url=" + records,
        "--intercusp.recipients.referrer.scope=referrer");
  }

  private DemoClient.Sent deliver(DemoClient client, DemoClient.Submitted one, String to)
      throws IOException, InterruptedException {
    DemoClient.Sent result = client.send(one.treatment(), to);
    say("%-44s -> %-9s %s", one.treatment(), to, result.state());
    return result;
  }

  private static RecordsServer records(int port) {
    try {
      return RecordsServerJar.ofBuild()
          .start(RecordsServerJar.Temper.PLAIN, WORK.resolve("records-server.log"), port);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static int freePort() throws IOException {
    try (ServerSocket probe = new ServerSocket(0)) {
      return probe.getLocalPort();
    }
  }

  private void finish(ConfigurableApplicationContext service, List<DemoClient.Sent> sent)
      throws InterruptedException {
    if (!once) {
      say("Ctrl-C ends the service and the records server.");
      Thread.currentThread().join();
    }
    service.close();
    boolean delivered = sent.stream().anyMatch(DemoClient.Sent::delivered);
    boolean stopped = sent.stream().anyMatch(DemoClient.Sent::stopped);
    boolean astray = sent.stream().anyMatch(one -> !one.delivered() && !one.stopped());
    System.exit(delivered && stopped && !astray ? 0 : 1);
  }

  private static List<Path> samples() throws IOException {
    try (Stream<Path> files = Files.walk(SAMPLES)) {
      return files.filter(file -> file.toString().endsWith(".treatment.json")).sorted().toList();
    }
  }

  private static Path emptied(Path folder) throws IOException {
    if (Files.isDirectory(folder)) {
      try (Stream<Path> files = Files.walk(folder)) {
        for (Path file : files.sorted(java.util.Comparator.reverseOrder()).toList()) {
          Files.delete(file);
        }
      }
    }
    return Files.createDirectories(folder);
  }

  private void phase(int number, String what) {
    long seconds = Duration.ofNanos(System.nanoTime() - begin).toSeconds();
    out.printf("%n[%d/5] %s (%d s)%n", number, what, seconds);
  }

  private void say(String format, Object... values) {
    out.printf("      " + format + "%n", values);
  }
}
