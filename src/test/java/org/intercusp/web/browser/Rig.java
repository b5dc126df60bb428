package org.intercusp.web.browser;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.intercusp.app.Intercusp;
import org.intercusp.exchange.RecordsServers;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.intercusp.web.browser.Visit.Look;
import org.springframework.boot.SpringApplication;
import org.springframework.boot.web.server.context.WebServerApplicationContext;
import org.springframework.context.ConfigurableApplicationContext;

/** The running service with a records server and a browser beside it. */
final class Rig implements AutoCloseable {

  private final HttpClient http = HttpClient.newHttpClient();
  private final Browsers browsers;
  private final ConfigurableApplicationContext service;
  private final String origin;

  private Rig(Browsers browsers, ConfigurableApplicationContext service) {
    this.browsers = browsers;
    this.service = service;
    int port = ((WebServerApplicationContext) service).getWebServer().getPort();
    this.origin = "http://127.0.0.1:" + port;
  }

  /** Starts all three; skips the tests where no browser is installed. */
  static Rig start(Path data) {
    return start(data, new String[0]);
  }

  /** The same with more arguments for the service. */
  static Rig start(Path data, String... more) {
    Browsers browsers = Browsers.start();
    return new Rig(
        browsers,
        service(
            data,
            Stream.concat(
                Stream.of(
                    "--intercusp.recipients.hospital.title=Harbour Lane Hospital",
                    "--intercusp.recipients.hospital.scope=hospital",
                    "--intercusp.recipients.hospital.url=" + RecordsServers.PLAIN.baseUrl()),
                Stream.of(more))));
  }

  /** Starts service and browser, for pages that need no records server. */
  static Rig alone(Path data) {
    Browsers browsers = Browsers.start();
    return new Rig(browsers, service(data, Stream.of()));
  }

  private static ConfigurableApplicationContext service(Path data, Stream<String> settings) {
    String[] words =
        Stream.concat(
                Stream.of("--server.port=0", "--intercusp.data=" + data.toAbsolutePath()), settings)
            .toArray(String[]::new);
    return new SpringApplication(Intercusp.class).run(words);
  }

  Visit visit(Look look) {
    return new Visit(browsers.browser(), origin, look, true);
  }

  Visit visitWithoutScript(Look look) {
    return new Visit(browsers.browser(), origin, look, false);
  }

  /** Hands in a sample under an id of the test's own. */
  String treatment(String sample, String id) throws IOException, InterruptedException {
    String own = "IT-" + id;
    assertThat(post("/treatments", sample(sample, own)).statusCode()).isEqualTo(201);
    return own;
  }

  /** Hands in generated outcomes and waits until they are counted. */
  void outcomes(int count) throws IOException, InterruptedException {
    SubmissionWriter writer = new SubmissionWriter();
    ByteArrayOutputStream lines = new ByteArrayOutputStream();
    for (Submission record : new OutcomeGenerator().records(count, 7).toList()) {
      lines.write(writer.write(record));
      lines.write('\n');
    }
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(origin + "/registry/outcomes"))
            .header("Content-Type", "application/x-ndjson")
            .POST(HttpRequest.BodyPublishers.ofByteArray(lines.toByteArray()))
            .build();
    String place =
        http.send(request, HttpResponse.BodyHandlers.ofString())
            .headers()
            .firstValue("Location")
            .orElseThrow();
    while (!get(place).contains("\"state\":\"done\"")) {
      Thread.sleep(200);
    }
  }

  HttpResponse<String> post(String path, String json) throws IOException, InterruptedException {
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(origin + path))
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(json))
            .build();
    return http.send(request, HttpResponse.BodyHandlers.ofString());
  }

  static String sample(String sample, String id) throws IOException {
    return Files.readString(Path.of("sample-bundles", sample + ".treatment.json"))
        .replaceFirst("\"HL-2026-\\d+\"", "\"" + id + "\"");
  }

  String get(String path) throws IOException, InterruptedException {
    HttpRequest request = HttpRequest.newBuilder(URI.create(origin + path)).build();
    return http.send(request, HttpResponse.BodyHandlers.ofString()).body();
  }

  @Override
  public void close() {
    service.close();
    browsers.close();
  }
}
