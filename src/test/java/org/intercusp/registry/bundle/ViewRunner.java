package org.intercusp.registry.bundle;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.util.List;
import org.hl7.fhir.exceptions.FHIRException;
import org.hl7.fhir.r4.context.IWorkerContext;
import org.hl7.fhir.r4.hapi.ctx.HapiWorkerContext;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.utils.sql.Provider;
import org.hl7.fhir.r4.utils.sql.Runner;
import org.hl7.fhir.r4.utils.sql.StorageJson;
import org.hl7.fhir.utilities.json.model.JsonArray;
import org.hl7.fhir.utilities.json.model.JsonObject;

/** The reference runner of the FHIR core over resources in memory. */
final class ViewRunner {

  private static final FhirContext FHIR = FhirContext.forR4Cached();
  private static final IWorkerContext CORE =
      new HapiWorkerContext(FHIR, new DefaultProfileValidationSupport(FHIR));

  private ViewRunner() {}

  /** The rows of a view, as objects. */
  static JsonArray run(JsonObject view, List<? extends Resource> resources) {
    StorageJson storage = new StorageJson();
    Runner runner = new Runner();
    runner.setContext(CORE);
    runner.setStorage(storage);
    runner.setProvider(provider(resources));
    try {
      runner.execute(view);
    } catch (FHIRException e) {
      throw new FHIRException(e.getMessage() + " " + runner.getIssues(), e);
    }
    return storage.getRows();
  }

  private static Provider provider(List<? extends Resource> resources) {
    return new Provider() {
      @Override
      public List<Base> fetch(String type) {
        return resources.stream()
            .filter(one -> one.fhirType().equals(type))
            .map(Base.class::cast)
            .toList();
      }

      @Override
      public Base resolveReference(Base root, String reference, String type) {
        // A key needs no more of the target than its name, whether it is at hand or not.
        String[] parts = reference.split("/", -1);
        if (type != null && !type.equals(parts[0])) {
          return null;
        }
        Resource target = (Resource) FHIR.getResourceDefinition(parts[0]).newInstance();
        target.setId(parts[1]);
        return target;
      }
    };
  }
}
