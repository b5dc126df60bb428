package org.intercusp.fhir.version;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.convertors.factory.VersionConvertorFactory_40_50;
import org.hl7.fhir.instance.model.api.IBaseDatatype;
import org.hl7.fhir.instance.model.api.IBaseExtension;
import org.hl7.fhir.instance.model.api.IBaseHasExtensions;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.Type;

/**
 * Repair: what R5 has no element for travels as an extension of ours that is named after the R4
 * element. FHIR publishes names for such extensions too ({@code http://hl7.org/fhir/4.0/...}), but
 * its validator takes a resource that has one for invalid unless it was given a list of R4's
 * elements, and servers validate with it.
 */
final class Carried {

  private final String ofFour;
  private final String ofFive;

  /**
   * @param base of our canonicals, without a slash at its end
   */
  Carried(String base) {
    this.ofFour = base + "/StructureDefinition/r4-";
    this.ofFive = base + "/StructureDefinition/r5-";
  }

  /** Puts an element's value upon what holds it in R5. */
  void up(String path, Type value, IBaseHasExtensions holder) {
    extend(ofFour + path, VersionConvertorFactory_40_50.convertType(value), holder);
  }

  /** Takes an element's values off what held them, after its way back into R4. */
  List<Type> down(String path, List<Extension> extensions) {
    List<Type> values = new ArrayList<>();
    extensions.removeIf(
        extension -> {
          boolean carries = (ofFour + path).equals(extension.getUrl());
          if (carries) {
            values.add(extension.getValue());
          }
          return carries;
        });
    return values;
  }

  /** Puts upon an R4 element what R4 has no element for, so that it is seen and not lost. */
  void beyond(String path, Type value, IBaseHasExtensions holder) {
    extend(ofFive + path, value, holder);
  }

  private static void extend(String url, IBaseDatatype value, IBaseHasExtensions holder) {
    IBaseExtension<?, ?> extension = holder.addExtension();
    extension.setUrl(url);
    extension.setValue(value);
  }
}
