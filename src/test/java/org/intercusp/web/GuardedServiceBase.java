package org.intercusp.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.Map;
import org.intercusp.app.Intercusp;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** One service with logins, and one issuer, for all the tests that ask who may do what. */
@SpringBootTest(
    classes = Intercusp.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT)
abstract class GuardedServiceBase {

  static final Issuer ISSUER = new Issuer();
  static final String SHARED = "SHARED-1";
  static final String OF_B = "B-ONLY-1";
  static final String OF_A = "A-ONLY-1";

  private static final Map<Program, String> TOKENS = new EnumMap<>(Program.class);
  private static String deliveryOfB = "";

  final JsonMapper json = new JsonMapper();

  @LocalServerPort int port;

  @DynamicPropertySource
  static void settings(DynamicPropertyRegistry registry) {
    try {
      GuardedService.settings(
          registry, ISSUER, Files.createTempDirectory(Path.of("target"), "guarded"));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Once for the service: both clinics keep something, and the second sends it. */
  @BeforeEach
  void filled() throws IOException {
    if (!deliveryOfB.isEmpty()) {
      return;
    }
    ISSUER.servesPagesAt(port);
    for (String id : new String[] {OF_A, SHARED}) {
      mustBe(201, as(Program.A_FULL, "POST", "/treatments").json(GuardedService.ofA(id)).reply());
    }
    for (String id : new String[] {OF_B, SHARED}) {
      mustBe(201, as(Program.B_FULL, "POST", "/treatments").json(GuardedService.ofB(id)).reply());
    }
    Knock.Reply delivery =
        mustBe(
            202,
            as(Program.B_FULL, "POST", "/treatments/" + OF_B + "/deliveries")
                .json("{\"to\": \"hospital\"}")
                .reply());
    deliveryOfB = delivery.header("Location").replace("/deliveries/", "");
  }

  static String deliveryOfB() {
    return deliveryOfB;
  }

  static Knock.Reply mustBe(int status, Knock.Reply reply) {
    if (reply.status() != status) {
      throw new AssertionError(status + " was expected, not " + reply);
    }
    return reply;
  }

  Knock as(Program program, String method, String path) throws IOException {
    return knock(method, path).with("Authorization", "Bearer " + token(program));
  }

  Knock knock(String method, String path) {
    return Knock.at(port, method, path);
  }

  JsonNode read(Knock.Reply reply) {
    return json.readTree(reply.body());
  }

  static String token(Program program) throws IOException {
    String token = TOKENS.get(program);
    if (token == null) {
      token = ISSUER.token(program);
      TOKENS.put(program, token);
    }
    return token;
  }
}
