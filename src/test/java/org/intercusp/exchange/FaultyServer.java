package org.intercusp.exchange;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.intercusp.exchange.wire.Target;
import org.jspecify.annotations.Nullable;

/**
 * A server with faults to order: what no rule catches goes to a real server behind it, if there is
 * one, or is answered 404.
 */
public final class FaultyServer implements AutoCloseable {

  static {
    // Otherwise each answer waits 40 ms for an acknowledgement that is delayed.
    System.setProperty("sun.net.httpserver.nodelay", "true");
  }

  public static final String FHIR = "application/fhir+json";

  /**
   * What a request is.
   *
   * @param headers by name in small letters
   */
  public record Asked(
      String method, String path, String query, String body, Map<String, String> headers) {

    public String header(String name) {
      return headers.getOrDefault(name, "");
    }

    public String authorization() {
      return header("authorization");
    }

    public String ifMatch() {
      return header("if-match");
    }

    String ifNoneExist() {
      return header("if-none-exist");
    }

    public Asked withQuery(String other) {
      return new Asked(method, path, other, body, headers);
    }

    public Asked withBody(String other) {
      return new Asked(method, path, query, other, headers);
    }

    public Asked with(String header, String value) {
      Map<String, String> others = new HashMap<>(headers);
      others.put(header, value);
      return new Asked(method, path, query, body, others);
    }

    public boolean isWrite() {
      return !method.equals("GET") && !isOnlyAsking();
    }

    /** A batch of searches, as JSON or XML. */
    private boolean isOnlyAsking() {
      return body.contains("\"type\":\"batch\",\"entry\":[{\"request\":{\"method\":\"GET\"")
          || body.contains("<type value=\"batch\"/><entry><request><method value=\"GET\"");
    }

    public boolean isMetadata() {
      return path.endsWith("/metadata");
    }
  }

  /** What is sent back; a null body closes the connection without an answer. */
  public record Said(int status, Map<String, String> headers, byte @Nullable [] body) {
    public static Said of(int status, String type, String body) {
      return new Said(status, Map.of("Content-Type", type), body.getBytes(StandardCharsets.UTF_8));
    }

    public static Said nothing() {
      return new Said(0, Map.of(), null);
    }

    public Said with(String header, String value) {
      Map<String, String> more = new HashMap<>(headers);
      more.put(header, value);
      return new Said(status, more, body);
    }
  }

  /** A fault: how it answers, given a way to ask the real server. */
  public interface Fault {
    Said answer(Asked asked, Real real) throws Exception;
  }

  /** The server behind, asked the same or something else. */
  public interface Real {
    Said ask(Asked instead) throws Exception;

    Asked asked();

    default Said ask() throws Exception {
      return ask(asked());
    }
  }

  private record Rule(Predicate<Asked> when, int[] times, Fault fault) {}

  private final HttpServer server;
  private final ExecutorService workers = Executors.newCachedThreadPool();
  private final HttpClient http =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private final @Nullable URI behind;
  private final List<Rule> rules = new CopyOnWriteArrayList<>();
  private final List<Asked> asked = new CopyOnWriteArrayList<>();

  public FaultyServer(@Nullable URI behind) {
    this.behind = behind;
    try {
      server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.createContext("/", this::handle);
    server.setExecutor(workers);
    server.start();
  }

  public URI baseUrl() {
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/fhir");
  }

  public Target target() {
    return Target.of(baseUrl());
  }

  /** The next so many requests of this kind have this fault. */
  public FaultyServer fault(int times, Predicate<Asked> when, Fault fault) {
    rules.add(new Rule(when, new int[] {times}, fault));
    return this;
  }

  /** The same before all other rules. */
  public FaultyServer first(int times, Predicate<Asked> when, Fault fault) {
    rules.add(0, new Rule(when, new int[] {times}, fault));
    return this;
  }

  /** All requests of this kind have this fault. */
  public FaultyServer always(Predicate<Asked> when, Fault fault) {
    return fault(Integer.MAX_VALUE, when, fault);
  }

  /** From now on, before all others. */
  public void first(Predicate<Asked> when, Fault fault) {
    rules.add(0, new Rule(when, new int[] {Integer.MAX_VALUE}, fault));
  }

  /** The CapabilityStatement of the real server, changed. */
  public FaultyServer capable(UnaryOperator<String> change) {
    return always(
        Asked::isMetadata,
        (one, real) -> {
          Said said = real.ask();
          return Said.of(200, FHIR, change.apply(new String(said.body(), StandardCharsets.UTF_8)));
        });
  }

  public List<Asked> asked() {
    return asked;
  }

  public long writes() {
    return asked.stream().filter(Asked::isWrite).count();
  }

  private void handle(HttpExchange exchange) throws IOException {
    try (exchange) {
      URI url = exchange.getRequestURI();
      String query = url.getRawQuery() == null ? "" : url.getRawQuery();
      byte[] body = exchange.getRequestBody().readAllBytes();
      Asked one =
          new Asked(
              exchange.getRequestMethod(),
              url.getRawPath(),
              query,
              new String(body, StandardCharsets.UTF_8),
              headers(exchange));
      asked.add(one);
      Said said = fault(one).answer(one, new Behind(one));
      if (said.body() == null) {
        return;
      }
      said.headers().forEach((name, value) -> exchange.getResponseHeaders().set(name, value));
      exchange.sendResponseHeaders(
          said.status(), said.body().length == 0 ? -1 : said.body().length);
      exchange.getResponseBody().write(said.body());
    } catch (Exception e) {
      // The platform's server closes the connection and says nothing of why.
      System.out.println("Behind the faulty server: " + e);
      throw new IOException(e);
    }
  }

  private static Map<String, String> headers(HttpExchange exchange) {
    Map<String, String> headers = new HashMap<>();
    exchange
        .getRequestHeaders()
        .forEach((name, values) -> headers.put(name.toLowerCase(Locale.ROOT), values.get(0)));
    return headers;
  }

  private final class Behind implements Real {
    private final Asked asked;

    Behind(Asked asked) {
      this.asked = asked;
    }

    @Override
    public Asked asked() {
      return asked;
    }

    @Override
    public Said ask(Asked instead) throws Exception {
      return forwarded(instead);
    }
  }

  private synchronized Fault fault(Asked one) {
    for (Rule rule : rules) {
      if (rule.times()[0] > 0 && rule.when().test(one)) {
        rule.times()[0]--;
        return rule.fault();
      }
    }
    return (asked, real) -> real.ask();
  }

  private Said forwarded(Asked one) throws Exception {
    if (behind == null) {
      return Said.of(404, "text/plain", "nothing here");
    }
    String path = one.path().replaceFirst("^/fhir", "");
    HttpRequest.Builder request =
        HttpRequest.newBuilder(
                URI.create(behind + path + (one.query().isEmpty() ? "" : "?" + one.query())))
            .method(one.method(), HttpRequest.BodyPublishers.ofString(one.body()));
    for (String name :
        List.of("accept", "content-type", "cache-control", "if-match", "if-none-exist")) {
      String value = one.header(name);
      if (!value.isEmpty()) {
        request.header(name, value.replace(baseUrl().toString(), behind.toString()));
      }
    }
    HttpResponse<String> answer = http.send(request.build(), HttpResponse.BodyHandlers.ofString());
    Said said =
        Said.of(
            answer.statusCode(),
            answer.headers().firstValue("Content-Type").orElse("text/plain"),
            answer.body().replace(behind.toString(), baseUrl().toString()));
    String location = answer.headers().firstValue("Location").orElse("");
    return location.isEmpty()
        ? said
        : said.with("Location", location.replace(behind.toString(), baseUrl().toString()));
  }

  @Override
  public void close() {
    server.stop(0);
    workers.shutdownNow();
  }
}
