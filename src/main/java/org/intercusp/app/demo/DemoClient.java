package org.intercusp.app.demo;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Speaks to the service over its public HTTP door, as any clinic system would. */
final class DemoClient {

  /** States in which a delivery moves no more by itself. */
  private static final Set<String> SETTLED = Set.of("delivered", "refused", "held", "given-up");

  /** How long one delivery may take; common practice, no source. */
  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final HttpClient http = HttpClient.newHttpClient();
  private final JsonMapper json = new JsonMapper();
  private final URI base;

  DemoClient(URI base) {
    this.base = base;
  }

  /** A treatment the service took: its id and the number of its findings by severity. */
  record Submitted(String treatment, int status, Map<String, Long> findings) {

    String shown() {
      String words =
          findings.entrySet().stream()
              .map(entry -> entry.getValue() + " " + entry.getKey())
              .collect(Collectors.joining(", "));
      return status + (words.isEmpty() ? "  no findings" : "  " + words);
    }
  }

  /** What became of one delivery. */
  record Sent(String treatment, String to, String state, String why) {

    boolean delivered() {
      return state.equals("delivered");
    }

    boolean stopped() {
      return state.equals("stopped");
    }
  }

  Submitted submit(Path file) throws IOException, InterruptedException {
    HttpResponse<String> answer = post("/treatments", Files.readString(file));
    JsonNode body = json.readTree(answer.body());
    if (answer.statusCode() != 201) {
      throw new IOException(file + ": " + answer.statusCode() + " " + answer.body());
    }
    Map<String, Long> counts = new LinkedHashMap<>();
    for (JsonNode finding : body.path("findings")) {
      counts.merge(finding.path("severity").asString(), 1L, Long::sum);
    }
    return new Submitted(body.path("treatment").asString(), answer.statusCode(), counts);
  }

  Sent send(String treatment, String to) throws IOException, InterruptedException {
    HttpResponse<String> answer =
        post("/treatments/" + treatment + "/deliveries", "{\"to\": \"" + to + "\"}");
    JsonNode body = json.readTree(answer.body());
    if (answer.statusCode() == 409) {
      return new Sent(treatment, to, "stopped", reasons(body));
    }
    if (answer.statusCode() != 202 && answer.statusCode() != 200) {
      return new Sent(treatment, to, "failed", answer.statusCode() + " " + answer.body());
    }
    return settled(treatment, to, "/deliveries/" + body.path("id").asString());
  }

  private Sent settled(String treatment, String to, String path)
      throws IOException, InterruptedException {
    long deadline = System.nanoTime() + PATIENCE.toNanos();
    while (true) {
      JsonNode delivery = json.readTree(get(path).body());
      String state = delivery.path("state").asString();
      if (SETTLED.contains(state) || System.nanoTime() > deadline) {
        return new Sent(treatment, to, state, counts(delivery));
      }
      Thread.sleep(100);
    }
  }

  private static String counts(JsonNode delivery) {
    JsonNode tries = delivery.path("tries");
    JsonNode last = tries.path(tries.size() - 1);
    StringBuilder words = new StringBuilder(delivery.path("reason").asString(""));
    for (String outcome : List.of("created", "updated", "unchanged", "kept", "marked")) {
      long count = last.path("report").path("counts").path(outcome).asLong(0);
      if (count > 0) {
        words.append(words.isEmpty() ? "" : ", ").append(count).append(' ').append(outcome);
      }
    }
    return words.toString();
  }

  private static String reasons(JsonNode problem) {
    StringBuilder reasons = new StringBuilder();
    for (JsonNode finding : problem.path("findings")) {
      reasons
          .append(reasons.isEmpty() ? "" : "; ")
          .append(finding.path("code").asString())
          .append(": ")
          .append(finding.path("message").asString());
    }
    return reasons.isEmpty() ? problem.path("detail").asString() : reasons.toString();
  }

  private HttpResponse<String> post(String path, String body)
      throws IOException, InterruptedException {
    HttpRequest request =
        HttpRequest.newBuilder(base.resolve(path))
            .timeout(PATIENCE)
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(body))
            .build();
    return http.send(request, HttpResponse.BodyHandlers.ofString());
  }

  private HttpResponse<String> get(String path) throws IOException, InterruptedException {
    HttpRequest request =
        HttpRequest.newBuilder(base.resolve(path)).timeout(PATIENCE).GET().build();
    return http.send(request, HttpResponse.BodyHandlers.ofString());
  }
}
