package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.Canonicals;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** The judge holds a treatment against the limits of the clinic, and against the day it is told. */
class OwnLimitsTest {

  /** Registered at 84.62 % of the path, which nobody accepted; the usual limit is 70 %. */
  private static final Path FAR = Path.of("sample-bundles/unsafe-bite-refused.bundle.json");

  private static List<String> stopping(Conformance judge, byte[] bundle) {
    return Judges.stopping(judge.validate(bundle, Format.JSON)).stream().map(Issue::rule).toList();
  }

  /** The same registered at so many of 13 mm. */
  private static byte[] registeredAt(String reading) throws IOException {
    ObjectNode file =
        (ObjectNode)
            new JsonMapper()
                .readTree(Path.of("sample-bundles/unsafe-bite-refused.treatment.json").toFile());
    ((ObjectNode) file.at("/bites/0")).put("registeredReading", new BigDecimal(reading));
    ReadResult read = new TreatmentReader().read(file.toString().getBytes(UTF_8));
    Bundle bundle = Judges.bundle(((ReadResult.Accepted) read).treatment(), BundleForm.TRANSACTION);
    return Judges.FHIR.newJsonParser().encodeResourceToString(bundle).getBytes(UTF_8);
  }

  private static Conformance judge(String share) {
    Limits own = Limits.named(Map.of("share-of-path", new BigDecimal(share)));
    return new Conformance(
        Judges.FHIR,
        Canonicals.RESERVED,
        GuardLimits.DEFAULT,
        new Examiner(own),
        Clock.systemUTC());
  }

  @Test
  void whatAClinicsOwnCheckLetsPassMayLeave() throws IOException {
    // 9.5 of 13 mm are 73.08 %.
    byte[] bundle = registeredAt("9.5");
    assertThat(stopping(Judges.SHARED, bundle)).contains("bite-share-exceeded");
    assertThat(stopping(judge("0.80"), bundle)).doesNotContain("bite-share-exceeded");
    assertThat(stopping(judge("0.80"), registeredAt("11"))).contains("bite-share-exceeded");
  }

  @Test
  void theDayItIsToldCounts() throws IOException {
    byte[] bundle = Files.readAllBytes(FAR);
    Conformance before = Judges.SHARED.on(LocalDate.parse("2020-01-01"));
    assertThat(stopping(before, bundle)).contains("date-order");
    assertThat(stopping(Judges.SHARED, bundle)).doesNotContain("date-order");
  }
}
