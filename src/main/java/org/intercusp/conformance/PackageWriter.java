package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveOutputStream;
import org.hl7.fhir.r4.model.MetadataResource;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.StructureDefinition;
import org.intercusp.fhir.Canonicals;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes the profiles as an installable FHIR package: a gzipped tar with everything under {@code
 * package/}, snapshots made and an index, as the NPM package specification of FHIR asks for. The
 * same profiles under the same base give the same bytes, whenever and wherever they are written.
 */
public final class PackageWriter {

  private static final int WRITABLE_FILE = 0100644;

  /** Every entry carries the same time, the least that archives of all kinds can hold. */
  private static final Instant STAMP = Instant.parse("1980-01-01T00:00:00Z");

  private final ProfilesPackage profiles;
  private final FhirContext context;

  PackageWriter(ProfilesPackage profiles, FhirContext context) {
    this.profiles = profiles;
    this.context = context;
  }

  /**
   * Called by the build, which writes it under the reserved base.
   *
   * @param arguments the file to write
   */
  public static void main(String[] arguments) throws IOException {
    Path file = Path.of(arguments[0]);
    Files.createDirectories(file.toAbsolutePath().getParent());
    Files.write(file, under(Canonicals.RESERVED));
  }

  /** The package under the base of a deployment, as a gzipped tar. */
  public static byte[] under(Canonicals canonicals) throws IOException {
    FhirContext context = FhirContext.forR4Cached();
    ProfilesPackage profiles =
        ProfilesPackage.load(context, new DefaultProfileValidationSupport(context), canonicals);
    return new PackageWriter(profiles, context).bytes();
  }

  /** The package. */
  byte[] bytes() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    try (OutputStream gzip = new GZIPOutputStream(out);
        TarArchiveOutputStream tar = new TarArchiveOutputStream(gzip)) {
      tar.setLongFileMode(TarArchiveOutputStream.LONGFILE_POSIX);
      for (Map.Entry<String, String> file : files().entrySet()) {
        byte[] content = file.getValue().getBytes(StandardCharsets.UTF_8);
        TarArchiveEntry entry = new TarArchiveEntry("package/" + file.getKey());
        entry.setSize(content.length);
        entry.setMode(WRITABLE_FILE);
        entry.setModTime(STAMP.toEpochMilli());
        tar.putArchiveEntry(entry);
        tar.write(content);
        tar.closeArchiveEntry();
      }
    }
    return out.toByteArray();
  }

  private Map<String, String> files() {
    Map<String, String> files = new TreeMap<>();
    for (Resource definition : profiles.definitions()) {
      files.put(name(definition), context.newJsonParser().encodeResourceToString(definition));
    }
    files.put(".index.json", index());
    // What is no R4 resource, such as views, stands in "other", beside what tools load.
    for (String whole : new String[] {"package.json", "NOTICE", "example/*.json", "other/*.json"}) {
      String folder = whole.substring(0, whole.indexOf('/') + 1);
      for (var file : ProfilesPackage.files(whole)) {
        String text = ProfilesPackage.text(file);
        files.put(folder + file.getFilename(), profiles.canonicals().rebased(text));
      }
    }
    return files;
  }

  private String index() {
    JsonMapper mapper = JsonMapper.builder().build();
    ObjectNode root = mapper.createObjectNode();
    root.put("index-version", 2);
    ArrayNode files = root.putArray("files");
    for (Resource definition : profiles.definitions()) {
      ObjectNode file = files.addObject();
      file.put("filename", name(definition));
      file.put("resourceType", definition.fhirType());
      file.put("id", definition.getIdPart());
      if (definition instanceof MetadataResource metadata) {
        file.put("url", metadata.getUrl());
        file.put("version", metadata.getVersion());
      }
      if (definition instanceof StructureDefinition profile) {
        file.put("kind", profile.getKind().toCode());
        file.put("type", profile.getType());
        file.put("derivation", profile.getDerivation().toCode());
      }
    }
    return mapper.writeValueAsString(root);
  }

  private static String name(Resource definition) {
    return definition.fhirType() + "-" + definition.getIdPart() + ".json";
  }
}
