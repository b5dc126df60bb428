package org.intercusp.exchange;

import java.net.URI;
import java.time.Duration;
import org.intercusp.app.demo.RecordsServer;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.containers.GenericContainer;
import org.testcontainers.containers.wait.strategy.Wait;

/** A published FHIR server in a container; it ends with the test JVM. */
final class ContainerRecordsServer {

  /** Image and version are pinned, so that a test means the same tomorrow. */
  private static final String IMAGE = "hapiproject/hapi:v8.8.0-1";

  private static final int PORT = 8080;

  private ContainerRecordsServer() {}

  @SuppressWarnings("resource") // ends with the JVM, which Testcontainers watches
  static RecordsServer start() {
    if (!DockerClientFactory.instance().isDockerAvailable()) {
      throw Absence.optional("no Docker engine, so no records server in a container");
    }
    GenericContainer<?> container =
        new GenericContainer<>(IMAGE)
            .withExposedPorts(PORT)
            .waitingFor(
                Wait.forHttp("/fhir/metadata")
                    .forPort(PORT)
                    .withStartupTimeout(Duration.ofMinutes(5)));
    container.start();
    return RecordsServer.at(
        URI.create(
            "http://%s:%d/fhir".formatted(container.getHost(), container.getMappedPort(PORT))));
  }
}
