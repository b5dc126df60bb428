package org.intercusp.exchange.wire;

import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;
import java.util.stream.Collectors;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.Authorization.Backend;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The tokens of the servers we talk to. Those of SMART Backend Services are fetched when first
 * needed, used until shortly before their end, by everybody who talks to that server, and never for
 * another server. They are kept in memory alone and written nowhere.
 */
final class TokenDesk {

  /** A token is not used in its last seconds; common practice, no source. */
  static final Duration SPARE = Duration.ofSeconds(30);

  /** Where a server does not say how long; RFC 6749, 5.1 leaves it open. No source. */
  private static final long ASSUMED_SECONDS = 60;

  /** SMART App Launch 2.2 wants an hour at most; longer is asked anew all the same. */
  private static final long LONGEST_SECONDS = 3600;

  private static final String ASSERTION_TYPE =
      "urn:ietf:params:oauth:client-assertion-type:jwt-bearer";

  /** Longer words of a token endpoint are not repeated; common practice, no source. */
  private static final int WORDS = 300;

  private record Ticket(String token, Instant until) {}

  private static final class Drawer {
    private final ReentrantLock lock = new ReentrantLock();
    private @Nullable Ticket ticket;
    private @Nullable URI discovered;
  }

  private final Wire wire;
  private final Clock clock;
  private final JsonMapper json = new JsonMapper();
  private final Map<Target, Drawer> drawers = new ConcurrentHashMap<>();

  TokenDesk(Wire wire, Clock clock) {
    this.wire = wire;
    this.clock = clock;
  }

  /** What to send; empty where the server wants no token. */
  Optional<String> token(Target target, Deadline deadline) throws Trouble {
    Authorization wanted = target.authorization();
    if (wanted instanceof Authorization.Fixed fixed) {
      return Optional.of(fixed.token());
    }
    return wanted instanceof Backend backend
        ? Optional.of(current(target, backend, null, deadline))
        : Optional.empty();
  }

  /** Another token after one was refused; empty where there is no other. */
  Optional<String> instead(Target target, String refused, Deadline deadline) throws Trouble {
    return target.authorization() instanceof Backend backend
        ? Optional.of(current(target, backend, refused, deadline))
        : Optional.empty();
  }

  private String current(
      Target target, Backend backend, @Nullable String refused, Deadline deadline) throws Trouble {
    Drawer drawer = drawers.computeIfAbsent(target, one -> new Drawer());
    try {
      if (!drawer.lock.tryLock(deadline.left().toMillis(), TimeUnit.MILLISECONDS)) {
        throw new Trouble(Difficulty.SLOW, "No token came in time");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Trouble(Difficulty.SLOW, "Interrupted while waiting for a token");
    }
    try {
      Ticket ticket = drawer.ticket;
      // Whoever was refused first has fetched another one for all that wait here.
      if (ticket == null
          || ticket.token().equals(refused)
          || !clock.instant().isBefore(ticket.until())) {
        drawer.ticket = null;
        ticket = fetched(target, backend, drawer, deadline);
        drawer.ticket = ticket;
      }
      return ticket.token();
    } finally {
      drawer.lock.unlock();
    }
  }

  private Ticket fetched(Target target, Backend backend, Drawer drawer, Deadline deadline)
      throws Trouble {
    URI endpoint = backend.tokenEndpoint();
    if (endpoint == null) {
      endpoint = drawer.discovered == null ? discovered(target, deadline) : drawer.discovered;
      drawer.discovered = endpoint;
    }
    Instant now = clock.instant();
    Map<String, String> form = new LinkedHashMap<>();
    form.put("grant_type", "client_credentials");
    form.put("scope", String.join(" ", backend.scopes()));
    // Optional in RFC 7521, section 4.2, and asked for by servers in use.
    form.put("client_id", backend.clientId());
    form.put("client_assertion_type", ASSERTION_TYPE);
    form.put("client_assertion", backend.keys().assertion(backend.clientId(), endpoint, now));
    HttpRequest request =
        HttpRequest.newBuilder(endpoint)
            .header("Content-Type", "application/x-www-form-urlencoded")
            .header("Accept", "application/json")
            .POST(HttpRequest.BodyPublishers.ofString(encoded(form)))
            .build();
    Answer answer = wire.send(target, request, deadline);
    if (answer.status() != 200) {
      // The endpoint may have moved.
      drawer.discovered = null;
      throw refused(answer);
    }
    return ticket(read(answer, "The token endpoint"), now);
  }

  private static Ticket ticket(JsonNode said, Instant asked) throws Trouble {
    JsonNode token = said.path("access_token");
    if (!token.isString()
        || !said.path("token_type").asString("").equalsIgnoreCase("bearer")
        || !token.stringValue().matches("[A-Za-z0-9\\-._~+/]+=*")) {
      throw new Trouble(Difficulty.FAILED, "The token endpoint gave no bearer token");
    }
    long seconds = said.path("expires_in").asLong(ASSUMED_SECONDS);
    Duration life = Duration.ofSeconds(Math.max(0, Math.min(seconds, LONGEST_SECONDS)));
    Duration half = life.dividedBy(2);
    Duration spare = half.compareTo(SPARE) < 0 ? half : SPARE;
    return new Ticket(token.stringValue(), asked.plus(life).minus(spare));
  }

  /** SMART App Launch 2.2, conformance: the FHIR base says where tokens are asked for. */
  private URI discovered(Target target, Deadline deadline) throws Trouble {
    URI place = URI.create(target.baseUrl() + "/.well-known/smart-configuration");
    HttpRequest request =
        HttpRequest.newBuilder(place).header("Accept", "application/json").build();
    Answer answer = wire.send(target, request, deadline);
    if (answer.status() != 200) {
      throw refused(answer);
    }
    String named = read(answer, "smart-configuration").path("token_endpoint").asString("");
    try {
      return Place.onSameHost(target.baseUrl(), named.isEmpty() ? "//" : named);
    } catch (IllegalArgumentException e) {
      throw new Trouble(
          Difficulty.ELSEWHERE,
          "smart-configuration names no token endpoint on the server itself: another one must be"
              + " configured as token-endpoint");
    }
  }

  private JsonNode read(Answer answer, String what) throws Trouble {
    try {
      JsonNode said = json.readTree(answer.body());
      if (said.isObject()) {
        return said;
      }
    } catch (JacksonException e) {
      // The same as no object.
    }
    throw new Trouble(Difficulty.FAILED, what + " answered with something else than JSON");
  }

  private Trouble refused(Answer answer) {
    int status = answer.status();
    Difficulty difficulty =
        switch (status) {
          case 408, 425, 429, 503 -> Difficulty.BUSY;
          default ->
              status >= 500
                  ? Difficulty.FAILED
                  : status >= 300 && status < 400 ? Difficulty.ELSEWHERE : Difficulty.REFUSED;
        };
    Duration wait = Waits.retryAfter(answer.header("Retry-After"), clock).orElse(null);
    return new Trouble(
        difficulty,
        "No token for this server: the authorization answered " + status,
        status,
        words(answer),
        wait);
  }

  /** RFC 6749, section 5.2; nothing that could quote the assertion back. */
  private String words(Answer answer) {
    try {
      JsonNode said = json.readTree(answer.body());
      String words =
          said.path("error").asString("") + ": " + said.path("error_description").asString("");
      boolean quotes = words.contains("eyJ") || words.length() > WORDS;
      return quotes ? said.path("error").asString("").replaceAll("[^a-z_].*", "") : words;
    } catch (JacksonException e) {
      return "";
    }
  }

  private static String encoded(Map<String, String> form) {
    return form.entrySet().stream()
        .map(one -> one.getKey() + "=" + URLEncoder.encode(one.getValue(), StandardCharsets.UTF_8))
        .collect(Collectors.joining("&"));
  }
}
