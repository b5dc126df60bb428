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
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
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
 * A records server that answers everything after a fixed while, creates on condition and finds what
 * it stored by identifier and tag: as little work of its own as delivering needs, since it is not
 * what is measured.
 */
final class StubRecords implements AutoCloseable {

  private static final JsonMapper JSON = new JsonMapper();

  private final HttpServer server;
  private final ExecutorService workers = Executors.newCachedThreadPool();
  private final Duration wait;
  private final String statement;
  private final Map<String, ObjectNode> byToken = new ConcurrentHashMap<>();
  private final AtomicLong ids = new AtomicLong();
  private final AtomicLong asked = new AtomicLong();

  /**
   * A server.
   *
   * @param types the resource types it keeps
   */
  StubRecords(Duration wait, Collection<String> types) throws IOException {
    System.setProperty("sun.net.httpserver.nodelay", "true");
    this.wait = wait;
    this.statement = statement(types).toString();
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

  private static ObjectNode statement(Collection<String> types) {
    ObjectNode statement = JSON.createObjectNode().put("resourceType", "CapabilityStatement");
    statement.put("status", "active").put("kind", "instance").put("fhirVersion", "4.0.1");
    statement.putArray("format").add("json");
    ObjectNode rest = statement.putArray("rest").addObject().put("mode", "server");
    for (String type : types) {
      ObjectNode resource = rest.withArrayProperty("resource").addObject().put("type", type);
      resource.put("conditionalCreate", true).put("conditionalUpdate", true);
    }
    for (String interaction : List.of("transaction", "batch")) {
      rest.withArrayProperty("interaction").addObject().put("code", interaction);
    }
    return statement;
  }

  private String answer(HttpExchange exchange, byte[] body) {
    String url = exchange.getRequestURI().getRawPath();
    if (exchange.getRequestMethod().equals("POST")) {
      ObjectNode bundle = (ObjectNode) JSON.readTree(body);
      boolean batch = bundle.path("type").stringValue().equals("batch");
      return (batch ? found(bundle) : stored(bundle)).toString();
    }
    if (url.endsWith("/metadata")) {
      return statement;
    }
    return found(url.substring(url.lastIndexOf('/') + 1), exchange.getRequestURI().getRawQuery())
        .toString();
  }

  private synchronized ObjectNode stored(ObjectNode transaction) {
    Map<String, String> places = new HashMap<>();
    List<ObjectNode> news = new ArrayList<>();
    ObjectNode answer = bundle("transaction-response");
    for (JsonNode entry : transaction.path("entry")) {
      ObjectNode resource = (ObjectNode) entry.path("resource");
      String type = resource.path("resourceType").stringValue();
      ObjectNode there = there(type, entry.at("/request/ifNoneExist").asString(""));
      ObjectNode kept = there == null ? resource : there;
      if (there == null) {
        keep(resource, String.valueOf(ids.incrementAndGet()));
        news.add(resource);
      }
      String place = type + "/" + kept.path("id").stringValue();
      places.put(entry.path("fullUrl").stringValue(), place);
      ObjectNode response = answer.withArrayProperty("entry").addObject().putObject("response");
      response.put("status", there == null ? "201 Created" : "200 OK");
      response.put("location", place + "/_history/1").put("etag", "W/\"1\"");
    }
    news.forEach(one -> refer(one, places));
    return answer;
  }

  private ObjectNode there(String type, String condition) {
    if (condition.isEmpty()) {
      return null;
    }
    String value = condition.split("=", 2)[1];
    return byToken.get(type + " " + URLDecoder.decode(value, StandardCharsets.UTF_8));
  }

  private static void refer(JsonNode node, Map<String, String> places) {
    for (JsonNode child : node) {
      refer(child, places);
    }
    if (node instanceof ObjectNode object && object.path("reference").isString()) {
      String to = object.path("reference").stringValue();
      object.put("reference", places.getOrDefault(to, to));
    }
  }

  private void keep(ObjectNode resource, String id) {
    resource.put("id", id);
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

  private ObjectNode found(ObjectNode batch) {
    ObjectNode answer = bundle("batch-response");
    ArrayNode entries = answer.putArray("entry");
    for (JsonNode entry : batch.path("entry")) {
      String[] sides = entry.at("/request/url").stringValue().split("\\?", 2);
      ObjectNode one = entries.addObject().set("resource", found(sides[0], sides[1]));
      one.putObject("response").put("status", "200 OK");
    }
    return answer;
  }

  private ObjectNode found(String type, String query) {
    ObjectNode answer = bundle("searchset");
    for (String value : query.split("&", 2)[0].split("=", 2)[1].split(",")) {
      ObjectNode resource =
          byToken.get(type + " " + URLDecoder.decode(value, StandardCharsets.UTF_8));
      if (resource != null) {
        answer.withArrayProperty("entry").addObject().set("resource", resource);
      }
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
