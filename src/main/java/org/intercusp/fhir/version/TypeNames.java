package org.intercusp.fhir.version;

import java.util.function.UnaryOperator;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;

/**
 * Repair: resource types that R5 calls by another name. The converter renames the resource alone;
 * what points to it (references, request and response URLs) still says the old name.
 */
final class TypeNames {

  private static final String FOUR = "DeviceUseStatement";
  private static final String FIVE = "DeviceUsage";
  private static final Pattern OLD = Pattern.compile("(^|/)" + FOUR + "(?=$|[/?])");
  private static final Pattern NEW = Pattern.compile("(^|/)" + FIVE + "(?=$|[/?])");

  private TypeNames() {}

  static String five(String four) {
    return four.equals(FOUR) ? FIVE : four;
  }

  static String four(String five) {
    return five.equals(FIVE) ? FOUR : five;
  }

  /** Lets everything in an R4 resource point to the names of R5. */
  static void up(Resource resource) {
    rename(resource, text -> replaced(OLD, FIVE, text));
  }

  /** Lets everything in an R4 resource point to the names of R4. */
  static void down(Resource resource) {
    rename(resource, text -> replaced(NEW, FOUR, text));
  }

  private static String replaced(Pattern from, String to, String text) {
    return from.matcher(text).replaceAll("$1" + Matcher.quoteReplacement(to));
  }

  private static void rename(Resource resource, UnaryOperator<String> name) {
    if (resource instanceof Bundle bundle) {
      for (BundleEntryComponent entry : bundle.getEntry()) {
        if (entry.getRequest().hasUrl()) {
          entry.getRequest().setUrl(name.apply(entry.getRequest().getUrl()));
        }
        if (entry.getResponse().hasLocation()) {
          entry.getResponse().setLocation(name.apply(entry.getResponse().getLocation()));
        }
      }
    } else {
      references(resource, name);
    }
  }

  private static void references(Base base, UnaryOperator<String> name) {
    if (base instanceof Reference reference) {
      if (reference.hasReference()) {
        reference.setReference(name.apply(reference.getReference()));
      }
      if (reference.hasType()) {
        reference.setType(name.apply(reference.getType()));
      }
    }
    for (Property property : base.children()) {
      property.getValues().forEach(value -> references(value, name));
    }
  }
}
