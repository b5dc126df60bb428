package org.intercusp.exchange;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicLong;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * A records server that answers everything after a fixed while and finds what it stored by
 * identifier and tag: as little work of its own as delivering needs, since it is not what is
 * measured.
 */
final class StubRecords implements AutoCloseable {

  private static final String STATEMENT =
      """
      {"resourceType": "CapabilityStatement", "status": "active", "kind": "instance",
       "fhirVersion": "4.0.1", "format": ["json"],
       "rest": [{"mode": "server", "interaction": [{"code": "transaction"}]}]}
      """;
  private static final JsonMapper JSON = new JsonMapper();

  private final HttpServer server;
  private final ExecutorService workers = Executors.newCachedThreadPool();
  private final Duration wait;
  private final Map<String, ObjectNode> byToken = new ConcurrentHashMap<>();
  private final AtomicLong ids = new AtomicLong();
  private final AtomicLong asked = new AtomicLong();

  StubRecords(Duration wait) throws IOException {
    System.setProperty("sun.net.httpserver.nodelay", "true");
    this.wait = wait;
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.createContext("/", this::handle);
    server.setExecutor(workers);
    server.start();
  }

  URI base() {
    return URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/fhir");
  }

  /** How many requests came. */
  long asked() {
    return asked.get();
  }

  private void handle(HttpExchange exchange) throws IOException {
    try (exchange) {
      asked.incrementAndGet();
      byte[] body = exchange.getRequestBody().readAllBytes();
      Thread.sleep(wait.toMillis());
      byte[] answer = answer(exchange, body).getBytes(StandardCharsets.UTF_8);
      exchange.getResponseHeaders().set("Content-Type", "application/fhir+json");
      exchange.sendResponseHeaders(200, answer.length);
      exchange.getResponseBody().write(answer);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private String answer(HttpExchange exchange, byte[] body) {
    URI url = exchange.getRequestURI();
    if (exchange.getRequestMethod().equals("POST")) {
      return stored(new String(body, StandardCharsets.UTF_8)).toString();
    }
    return url.getPath().endsWith("/metadata") ? STATEMENT : found(url).toString();
  }

  private ObjectNode stored(String transaction) {
    String resolved = transaction;
    ArrayNode entries = (ArrayNode) JSON.readTree(transaction).path("entry");
    String[] places = new String[entries.size()];
    for (int i = 0; i < places.length; i++) {
      places[i] =
          entries.get(i).at("/resource/resourceType").stringValue() + "/" + ids.incrementAndGet();
      resolved = resolved.replace(entries.get(i).path("fullUrl").stringValue(), places[i]);
    }
    ObjectNode answer = bundle("transaction-response");
    ArrayNode answers = answer.putArray("entry");
    int place = 0;
    for (JsonNode entry : JSON.readTree(resolved).path("entry")) {
      keep((ObjectNode) entry.path("resource"), places[place]);
      answers
          .addObject()
          .putObject("response")
          .put("status", "201 Created")
          .put("location", places[place] + "/_history/1");
      place++;
    }
    return answer;
  }

  private void keep(ObjectNode resource, String place) {
    resource.put("id", place.substring(place.indexOf('/') + 1));
    ((ObjectNode) resource.withObjectProperty("meta")).put("versionId", "1");
    JsonNode identifier = resource.path("identifier");
    for (JsonNode one : identifier.isArray() ? identifier : List.of(identifier)) {
      keep(resource, one.path("system").asString(""), one.path("value").asString(""));
    }
    for (JsonNode one : resource.at("/meta/tag")) {
      keep(resource, one.path("system").asString(""), one.path("code").asString(""));
    }
  }

  private void keep(ObjectNode resource, String system, String value) {
    byToken.put(resource.path("resourceType").stringValue() + " " + system + "|" + value, resource);
  }

  private ObjectNode found(URI url) {
    String type = url.getPath().substring(url.getPath().lastIndexOf('/') + 1);
    ObjectNode answer = bundle("searchset");
    ArrayNode entries = answer.putArray("entry");
    String values = url.getRawQuery().split("&", 2)[0].split("=", 2)[1];
    for (String value : values.split(",")) {
      String token = URLDecoder.decode(value, StandardCharsets.UTF_8);
      ObjectNode resource = byToken.get(type + " " + token);
      if (resource != null) {
        entries.addObject().set("resource", resource);
      }
    }
    if (entries.isEmpty()) {
      answer.remove("entry");
    }
    return answer;
  }

  private static ObjectNode bundle(String type) {
    return JSON.createObjectNode().put("resourceType", "Bundle").put("type", type);
  }

  @Override
  public void close() {
    server.stop(0);
    workers.shutdownNow();
  }
}
