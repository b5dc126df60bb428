package org.intercusp.web;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.springframework.test.context.DynamicPropertyRegistry;

/** The settings of a service where two clinics log in, and what each of them keeps there. */
final class GuardedService {

  static final String CLINICS = "https://harbour-lane.example/organisations";

  /** Words that only the second clinic's treatments hold; none may reach the first. */
  static final String[] CANARIES = {
    "Zzcanaryfamily", "Zzcanarygiven", "Zzcanaryclinic", "ZZ-CANARY-7", "2011-11-11", "B-ONLY-1"
  };

  /** A recipient that refuses everything and quotes what it refuses. */
  static final EchoServer ECHO = new EchoServer();

  private static final Path SAMPLE = Path.of("sample-bundles/mixed-dentition.treatment.json");

  private GuardedService() {}

  static void settings(DynamicPropertyRegistry registry, Issuer issuer, Path data) {
    try {
      Path secret = Files.writeString(data.resolve("client-secret"), Issuer.SECRET + "\n");
      registry.add("intercusp.login.client.secret-file", secret::toString);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    registry.add("intercusp.data", () -> data.resolve("data").toAbsolutePath().toString());
    registry.add("intercusp.login.issuer", issuer::address);
    registry.add("intercusp.login.audience", () -> Issuer.AUDIENCE);
    registry.add("intercusp.login.client.id", () -> Issuer.PAGES);
    registry.add("intercusp.login.tenants.harbour-lane", () -> CLINICS + "|harbour-lane");
    registry.add("intercusp.login.tenants.quay-side", () -> CLINICS + "|quay-side");
    registry.add("intercusp.login.tenants.operator", () -> "*");
    registry.add("intercusp.recipients.hospital.url", () -> "http://127.0.0.1:9/fhir");
    registry.add("intercusp.recipients.hospital.scope", () -> "hospital");
    registry.add("intercusp.recipients.echo.url", ECHO::address);
    registry.add("intercusp.recipients.echo.scope", () -> "hospital");
    // What the law asks is tested in its own place; here a finished treatment may be erased.
    registry.add("intercusp.retention.years", () -> "0");
    registry.add("intercusp.retention.until-age", () -> "0");
    // Each look at a recipient that is not there would wait some three seconds between its tries.
    registry.add("intercusp.client.first-wait", () -> "10ms");
    registry.add("intercusp.rates.address", () -> "100000");
    registry.add("intercusp.rates.nobody", () -> "100000");
    registry.add("intercusp.rates.caller", () -> "3000");
  }

  /** A treatment of the first clinic. */
  static String ofA(String id) {
    return sample().replace("HL-2026-003", id);
  }

  /** A treatment of the second clinic, full of canaries. */
  static String ofB(String id) {
    return sample()
        .replace("HL-2026-003", id)
        .replace("\"value\": \"harbour-lane\"", "\"value\": \"quay-side\"")
        .replace("Harbour Lane Orthodontics", "Zzcanaryclinic")
        .replace("Jónsdóttir", "Zzcanaryfamily")
        .replace("Freya", "Zzcanarygiven")
        .replace("P-10533", "ZZ-CANARY-7")
        .replace("2015-09-30", "2011-11-11");
  }

  private static String sample() {
    try {
      return Files.readString(SAMPLE);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
