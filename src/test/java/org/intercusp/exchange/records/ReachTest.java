package org.intercusp.exchange.records;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.records.RecordsClient.Reachability;
import org.intercusp.exchange.wire.Target;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Several servers are asked at once whether they answer. */
class ReachTest {

  private static final int SERVERS = 4;

  private static final byte[] STATEMENT =
      ("{\"resourceType\":\"CapabilityStatement\",\"status\":\"active\",\"kind\":\"instance\","
              + "\"fhirVersion\":\"4.0.1\",\"format\":[\"json\"]}")
          .getBytes(UTF_8);

  private final CyclicBarrier all = new CyclicBarrier(SERVERS);
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private HttpServer server;

  /** Answers nobody before all are asked. */
  @BeforeEach
  void begin() throws IOException {
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
    server.setExecutor(threads);
    server.createContext(
        "/",
        exchange -> {
          try {
            all.await(30, TimeUnit.SECONDS);
          } catch (Exception e) {
            exchange.close();
            return;
          }
          exchange.getResponseHeaders().add("Content-Type", "application/fhir+json");
          exchange.sendResponseHeaders(200, STATEMENT.length);
          exchange.getResponseBody().write(STATEMENT);
          exchange.close();
        });
    server.start();
  }

  @AfterEach
  void end() {
    server.stop(0);
    threads.shutdownNow();
  }

  @Test
  void noneWaitsForTheOneBeforeIt() {
    RecordsClient client = Clients.within(Duration.ofSeconds(30));
    List<Target> targets =
        IntStream.range(0, SERVERS)
            .mapToObj(i -> "http://127.0.0.1:" + server.getAddress().getPort() + "/" + i)
            .map(base -> Target.of(URI.create(base)))
            .toList();

    assertThat(client.reach(targets)).extracting(Reachability::words).containsOnly("FHIR 4.0.1");
  }
}
