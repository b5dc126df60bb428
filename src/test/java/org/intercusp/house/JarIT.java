package org.intercusp.house;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import java.util.jar.JarFile;
import java.util.stream.Collectors;
import org.intercusp.app.Intercusp;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The one jar is what it says: it starts where it should and lists every library it carries. */
class JarIT {

  private static final String LIBRARIES = "BOOT-INF/lib/";

  @Test
  void startsAtTheMainClass() throws IOException {
    try (JarFile jar = jar()) {
      assertThat(jar.getManifest().getMainAttributes().getValue("Start-Class"))
          .isEqualTo(Intercusp.class.getName());
    }
  }

  @Test
  void billOfMaterialsNamesEveryLibrary() throws IOException {
    assumeFalse(
        "offline true".equals(System.getProperty("intercusp.maven")),
        "Maven writes no bill of materials with -o");
    try (JarFile jar = jar()) {
      List<String> carried =
          jar.stream()
              .map(entry -> entry.getName())
              .filter(name -> name.startsWith(LIBRARIES) && name.endsWith(".jar"))
              // Put in by the packaging itself, which needs no dependency for it.
              .filter(name -> !name.contains("spring-boot-jarmode-tools"))
              .map(name -> name.substring(LIBRARIES.length(), name.length() - 4))
              .toList();
      assertThat(carried).hasSizeGreaterThan(50);
      assertThat(listed(jar)).containsAll(carried);
    }
  }

  private static Set<String> listed(JarFile jar) throws IOException {
    var entry = jar.getEntry("META-INF/sbom/application.cdx.json");
    assertThat(entry).as("bill of materials").isNotNull();
    JsonNode bill = JsonMapper.shared().readTree(jar.getInputStream(entry).readAllBytes());
    return bill.path("components")
        .valueStream()
        .map(part -> part.path("name").asString() + "-" + part.path("version").asString())
        .collect(Collectors.toSet());
  }

  private static JarFile jar() throws IOException {
    return new JarFile(System.getProperty("intercusp.jar", "target/intercusp.jar"));
  }
}
