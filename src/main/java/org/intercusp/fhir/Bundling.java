package org.intercusp.fhir;

import java.time.LocalDate;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;

/** The resources of a treatment in one Bundle. */
final class Bundling {

  private final Writing writing;
  private final LocalDate on;

  Bundling(Writing writing, LocalDate on) {
    this.writing = writing;
    this.on = on;
  }

  Bundle bundle(BundleForm form) {
    Bundle bundle = new Bundle();
    Profile profile =
        form == BundleForm.DOCUMENT ? Profile.TREATMENT_DOCUMENT : Profile.TREATMENT_BUNDLE;
    bundle.getMeta().addProfile(writing.canonicals().of(profile));
    bundle.setType(
        switch (form) {
          case TRANSACTION -> BundleType.TRANSACTION;
          case COLLECTION -> BundleType.COLLECTION;
          case DOCUMENT -> BundleType.DOCUMENT;
        });
    for (Writing.Entry entry : writing.entries()) {
      BundleEntryComponent to =
          bundle.addEntry().setFullUrl(entry.fullUrl()).setResource(entry.resource());
      if (form == BundleForm.TRANSACTION) {
        request(entry, to);
      }
    }
    return bundle;
  }

  private static void request(Writing.Entry entry, BundleEntryComponent to) {
    String type = entry.resource().fhirType();
    if (entry.shared()) {
      to.getRequest().setMethod(HTTPVerb.POST).setUrl(type).setIfNoneExist(entry.search());
    } else {
      to.getRequest().setMethod(HTTPVerb.PUT).setUrl(type + "?" + entry.search());
    }
  }
}
