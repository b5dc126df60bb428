package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import com.nimbusds.jose.jwk.Curve;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.gen.ECKeyGenerator;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Map;
import org.intercusp.exchange.authorization.Authorization;
import org.intercusp.exchange.authorization.PublishedKeys;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.wire.Target;
import org.intercusp.exchange.wire.Vicinity;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.boot.test.context.runner.ApplicationContextRunner;
import org.springframework.core.env.SystemEnvironmentPropertySource;

/** Recipients as they are configured; what is wrong is said at the start by its property. */
class RecipientSettingsTest {

  private static final String HOSPITAL = "intercusp.recipients.hospital.";

  @TempDir Path folder;

  private final ApplicationContextRunner context =
      new ApplicationContextRunner()
          .withUserConfiguration(RoomWiring.class)
          .withPropertyValues(
              "intercusp.data=target/recipient-settings",
              HOSPITAL + "url=https://records.example/fhir",
              HOSPITAL + "scope=hospital");

  private Path keys() throws Exception {
    Path file = folder.resolve("keys.json");
    Files.writeString(
        file, new JWKSet(new ECKeyGenerator(Curve.P_384).keyID("one").generate()).toString(false));
    return Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-------"));
  }

  @Test
  void backendServices() throws Exception {
    context
        .withPropertyValues(
            HOSPITAL + "backend.client-id=intercusp",
            HOSPITAL + "backend.token-endpoint=https://login.example/token",
            HOSPITAL + "backend.key-file=" + keys(),
            HOSPITAL + "backend.kid=one",
            HOSPITAL + "backend.algorithm=ES384",
            HOSPITAL + "backend.scopes=system/Patient.cruds,system/Observation.cruds",
            HOSPITAL + "vicinity=this-machine-too")
        .run(
            started -> {
              Target target =
                  started.getBean(Recipients.class).named("hospital").orElseThrow().target();
              Authorization.Backend backend = (Authorization.Backend) target.authorization();
              assertThat(backend.scopes())
                  .containsExactly("system/Patient.cruds", "system/Observation.cruds");
              assertThat(target.vicinity()).isEqualTo(Vicinity.THIS_MACHINE_TOO);
              assertThat(started.getBean(PublishedKeys.class).json())
                  .contains("\"one\"", "ES384")
                  .doesNotContain("\"d\"");
            });
  }

  @Test
  void tokenOfTheEnvironment() {
    context
        .withInitializer(
            one ->
                one.getEnvironment()
                    .getPropertySources()
                    .addFirst(
                        new SystemEnvironmentPropertySource(
                            "systemEnvironment",
                            Map.of("INTERCUSP_RECIPIENTS_HOSPITAL_TOKEN", "hidden-token"))))
        .run(
            started -> {
              Target target =
                  started.getBean(Recipients.class).named("hospital").orElseThrow().target();
              assertThat(target.authorization()).isEqualTo(new Authorization.Fixed("hidden-token"));
              assertThat(target.authorization().toString()).doesNotContain("hidden");
              assertThat(started.getBean(RecipientSettings.class).toString())
                  .doesNotContain("hidden");
            });
  }

  @ParameterizedTest
  @CsvSource({
    "scope=moon, hospital.scope",
    "url=ftp://records.example/, hospital: ",
    "url=https://records.example:99999/, 'hospital: A FHIR base URL has a port of 1 to 65535, not 99999'",
    "url=https://records.example:0/, hospital: ",
    "token-file=/nowhere/token, hospital.token-file",
    "token=two words, hospital.token",
    "backend.client-id=us, hospital.backend.key-file",
    "backend.key-file=/nowhere/keys.json, hospital.backend.key-file",
    "tls-bundle=none, hospital.tls-bundle",
    "vicinity=moon, hospital.vicinity"
  })
  void saysWhatIsWrong(String setting, String named) {
    context
        .withPropertyValues(HOSPITAL + setting)
        .run(
            started -> {
              assertThat(started).hasFailed();
              StringBuilder said = new StringBuilder();
              for (Throwable at = started.getStartupFailure(); at != null; at = at.getCause()) {
                said.append(at.getMessage()).append('\n');
              }
              assertThat(said.toString()).contains("intercusp.recipients." + named);
              assertThat(said.toString()).doesNotContain("two words");
            });
  }
}
