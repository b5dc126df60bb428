package org.intercusp.web.fhir;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import org.intercusp.archive.FiledResource;
import org.intercusp.bulk.Lines;
import org.springframework.stereotype.Component;

/** A resource on a line as a read would answer it. */
@Component
class ExportLines implements Lines {

  private final FhirContext context;
  private final Rendering rendering;

  ExportLines(FhirContext context, Rendering rendering) {
    this.context = context;
    this.rendering = rendering;
  }

  @Override
  public byte[] line(FiledResource resource) {
    return context
        .newJsonParser()
        .encodeResourceToString(rendering.resource(resource))
        .getBytes(StandardCharsets.UTF_8);
  }
}
