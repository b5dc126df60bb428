package org.intercusp.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.intercusp.app.Intercusp;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * One service where nobody logs in, on a real port with its embedded database, for all the tests
 * that ask it; each of them stores treatments under ids of its own. Its recipients do not answer,
 * and who does not answer pauses as a whole: a test that waits for a first attempt has a recipient
 * of its own.
 */
@SpringBootTest(
    classes = Intercusp.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
    properties = {
      "intercusp.recipients.hospital.url=http://127.0.0.1:9/fhir",
      "intercusp.recipients.hospital.scope=hospital",
      "intercusp.recipients.hospital.title=Harbour General",
      "intercusp.recipients.registry.url=http://127.0.0.1:9/fhir",
      "intercusp.recipients.registry.scope=registry",
      "intercusp.recipients.practice.url=http://127.0.0.1:9/fhir",
      "intercusp.recipients.practice.scope=referrer",
      "intercusp.client.first-wait=10ms"
    })
abstract class OpenServiceBase {

  /** The service makes it, with the rights it wants there. */
  static final Path DATA = parent().resolve("data").toAbsolutePath();

  final JsonMapper json = new JsonMapper();

  @LocalServerPort int port;

  @DynamicPropertySource
  static void settings(DynamicPropertyRegistry registry) {
    registry.add("intercusp.data", DATA::toString);
  }

  private static Path parent() {
    try {
      return Files.createTempDirectory(Path.of("target"), "open");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  Knock knock(String method, String path) {
    return Knock.at(port, method, path);
  }

  String get(String path) throws IOException {
    return knock("GET", path).reply().body();
  }

  JsonNode read(String path) throws IOException {
    return json.readTree(get(path));
  }

  static String sample(String name) throws IOException {
    return Files.readString(Path.of("sample-bundles", name + ".treatment.json"));
  }

  /** A sample stored under another id; its place. */
  String store(String sample, String id) throws IOException {
    return store(sample, id, "Kowalczyk");
  }

  String store(String sample, String id, String family) throws IOException {
    Knock.Reply reply =
        knock("POST", "/treatments").json(named(sample(sample), id, family)).reply();
    if (reply.status() != 201) {
      throw new AssertionError(reply);
    }
    return reply.header("Location");
  }

  /** A file with another id and family name. */
  static String named(String file, String id, String family) {
    return file.replaceFirst("\"id\": \"[^\"]+\"", "\"id\": \"" + id + "\"")
        .replaceFirst("(?s)(\"patient\".*?\"family\"\\s*:\\s*)\"[^\"]+\"", "$1\"" + family + "\"");
  }
}
