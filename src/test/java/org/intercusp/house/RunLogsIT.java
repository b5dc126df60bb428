package org.intercusp.house;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * Whatever the unit tests of this build had the service log, the patients of the samples and the
 * canaries of the scan are nowhere in it, except where a leak was planted to prove that it would be
 * found.
 */
class RunLogsIT {

  private static final Path REPORTS = Path.of("target/surefire-reports");
  private static final String PLANTED = "TEST-org.intercusp.web.CanaryScanTest.xml";
  private static final Set<String> CANARIES = Set.of("Zzcanary", "ZZ-CANARY");
  private static final Pattern SAID =
      Pattern.compile("<system-(out|err)>(.*?)</system-\\1>", Pattern.DOTALL);

  @Test
  void nothingOfAPatientIsInTheLogsOfTheRun() throws IOException {
    assumeTrue(Files.exists(REPORTS.resolve(PLANTED)), "the unit tests did not run in this build");
    Set<String> patients = patients();
    assertThat(patients).hasSizeGreaterThan(15);
    List<String> found = new ArrayList<>();
    long looked = 0;
    for (Path report : listed(REPORTS, "TEST-")) {
      String said = said(report);
      looked += said.length();
      hits(said, patients).forEach(hit -> found.add(report.getFileName() + ": " + hit));
    }
    assertThat(looked).as("characters of logs").isGreaterThan(10_000);
    assertThat(found).containsExactlyInAnyOrderElementsOf(planted());
  }

  private static List<String> planted() {
    return CANARIES.stream().map(each -> PLANTED + ": " + each).toList();
  }

  private static Set<String> hits(String said, Set<String> patients) {
    return Stream.concat(CANARIES.stream(), patients.stream())
        .filter(said::contains)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  private static String said(Path report) throws IOException {
    StringBuilder said = new StringBuilder();
    Matcher matcher = SAID.matcher(Files.readString(report));
    while (matcher.find()) {
      said.append(matcher.group(2));
    }
    return said.toString();
  }

  /** Family names and numbers of the samples' patients: nothing else is called so. */
  private static Set<String> patients() throws IOException {
    Set<String> names = new TreeSet<>();
    for (Path sample : listed(Path.of("sample-bundles"), "")) {
      if (sample.toString().endsWith(".treatment.json")) {
        JsonNode patient = JsonMapper.shared().readTree(Files.readAllBytes(sample)).path("patient");
        names.add(patient.at("/identifier/value").stringValue());
        names.add(patient.path("family").stringValue());
      }
    }
    return names;
  }

  private static List<Path> listed(Path folder, String start) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(each -> each.getFileName().toString().startsWith(start))
          .sorted()
          .toList();
    }
  }
}
