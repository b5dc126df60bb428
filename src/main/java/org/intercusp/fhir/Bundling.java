package org.intercusp.fhir;

import java.time.LocalDate;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.InstantType;
import org.intercusp.treatment.Identifier;

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
    if (form == BundleForm.DOCUMENT) {
      document(bundle);
    }
    for (Writing.Entry entry : writing.entries()) {
      BundleEntryComponent to =
          bundle.addEntry().setFullUrl(entry.fullUrl()).setResource(entry.resource());
      if (form == BundleForm.TRANSACTION) {
        request(entry, to);
      }
    }
    if (form == BundleForm.DOCUMENT) {
      DocumentInstance.identify(bundle, composition());
    }
    return bundle;
  }

  /** A document is dated by the day it speaks of, never by a clock. */
  private void document(Bundle bundle) {
    Identifier identifier = composition();
    bundle.setTimestampElement(new InstantType(on + "T00:00:00Z"));
    Composition summary = new SummaryMapper().toFhir(writing, on);
    summary.getMeta().addProfile(writing.canonicals().of(Role.SUMMARY.profile()));
    summary.setIdentifier((org.hl7.fhir.r4.model.Identifier) Writing.fhir(identifier));
    bundle.addEntry().setFullUrl(Identity.urn(summary.fhirType(), identifier)).setResource(summary);
  }

  private Identifier composition() {
    return writing.identity().identifier(Role.SUMMARY);
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
