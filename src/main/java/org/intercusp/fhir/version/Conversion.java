package org.intercusp.fhir.version;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.parser.DataFormatException;
import ca.uhn.fhir.parser.IParser;
import ca.uhn.fhir.parser.LenientErrorHandler;
import ca.uhn.fhir.parser.StrictErrorHandler;
import java.nio.charset.StandardCharsets;
import org.hl7.fhir.instance.model.api.IBaseResource;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;

/**
 * An R4 resource or Bundle as text of any {@link Release}, and such text as R4.
 *
 * <p>R4B took every type a treatment is made of over from R4 unchanged, so its text is R4's,
 * checked by the model of R4B; the library's converter goes there by way of R5, which loses what R4
 * and R4B share. R5 is made by the library's converter and the repairs of this package.
 *
 * <p>Text of another release claims no profile of ours: a profile is of one release. What cannot be
 * converted is refused with a {@link DataFormatException}. Text that came from elsewhere must have
 * passed the guard before it is read here.
 */
public final class Conversion {

  private final FhirContext context;
  private final Five five;
  private final boolean pretty;

  private Conversion(FhirContext context, String base, boolean pretty) {
    this.context = context;
    this.five = new Five(new Carried(base));
    this.pretty = pretty;
  }

  /**
   * Text for machines.
   *
   * @param base of our canonicals, under which our extensions stand
   */
  public static Conversion compact(FhirContext r4, String base) {
    return new Conversion(r4, base, false);
  }

  /**
   * Text that a person may read too.
   *
   * @param base of our canonicals, under which our extensions stand
   */
  public static Conversion pretty(FhirContext r4, String base) {
    return new Conversion(r4, base, true);
  }

  /** Writes JSON, in UTF-8. */
  public byte[] json(Resource resource, Release to) {
    return written(resource, to, Notation.JSON);
  }

  /** Writes XML, in UTF-8. */
  public byte[] xml(Resource resource, Release to) {
    return written(resource, to, Notation.XML);
  }

  /** Reads JSON of a release as R4. */
  public Resource fromJson(String json, Release from) {
    return read(json, from, Notation.JSON);
  }

  /** Reads XML of a release as R4. */
  public Resource fromXml(String xml, Release from) {
    return read(xml, from, Notation.XML);
  }

  private enum Notation {
    JSON,
    XML
  }

  private byte[] written(Resource resource, Release to, Notation notation) {
    IBaseResource written =
        switch (to) {
          case R4 -> resource;
          case R4B -> asFourB(withoutClaims(resource));
          case R5 -> five.up(withoutClaims(resource));
        };
    return quiet(parser(context(to), notation))
        .setPrettyPrint(pretty)
        .encodeResourceToString(written)
        .getBytes(StandardCharsets.UTF_8);
  }

  private Resource read(String text, Release from, Notation notation) {
    // What R4B says beyond R4 stands in types that no treatment is read from.
    FhirContext model = from == Release.R5 ? context(from) : context;
    IBaseResource read = quiet(parser(model, notation)).parseResource(text);
    return read instanceof org.hl7.fhir.r5.model.Resource later
        ? five.down(later)
        : (Resource) read;
  }

  /** R4's own text, read by the model of R4B, which refuses whatever R4B has not. */
  private IBaseResource asFourB(Resource resource) {
    return context(Release.R4B)
        .newJsonParser()
        .setParserErrorHandler(new StrictErrorHandler())
        .parseResource(context.newJsonParser().encodeResourceToString(resource));
  }

  private FhirContext context(Release release) {
    return switch (release) {
      case R4 -> context;
      case R4B -> FhirContext.forR4BCached();
      case R5 -> FhirContext.forR5Cached();
    };
  }

  private static IParser parser(FhirContext model, Notation notation) {
    return notation == Notation.JSON ? model.newJsonParser() : model.newXmlParser();
  }

  private static IParser quiet(IParser parser) {
    LenientErrorHandler handler = new LenientErrorHandler(false);
    handler.setErrorOnInvalidValue(false);
    return parser.setParserErrorHandler(handler);
  }

  private static Resource withoutClaims(Resource resource) {
    Resource copy = resource.copy();
    copy.getMeta().getProfile().clear();
    if (copy instanceof Bundle bundle) {
      bundle.getEntry().stream()
          .filter(Bundle.BundleEntryComponent::hasResource)
          .forEach(entry -> entry.setResource(withoutClaims(entry.getResource())));
    }
    return copy;
  }
}
