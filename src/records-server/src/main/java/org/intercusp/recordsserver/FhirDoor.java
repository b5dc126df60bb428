package org.intercusp.recordsserver;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.IValidationSupport;
import ca.uhn.fhir.interceptor.api.IInterceptorService;
import ca.uhn.fhir.jpa.api.config.JpaStorageSettings;
import ca.uhn.fhir.jpa.api.dao.IFhirSystemDao;
import ca.uhn.fhir.jpa.provider.JpaCapabilityStatementProvider;
import ca.uhn.fhir.jpa.provider.JpaSystemProvider;
import ca.uhn.fhir.jpa.search.DatabaseBackedPagingProvider;
import ca.uhn.fhir.rest.api.EncodingEnum;
import ca.uhn.fhir.rest.server.RestfulServer;
import ca.uhn.fhir.rest.server.interceptor.RequestValidatingInterceptor;
import ca.uhn.fhir.rest.server.provider.ResourceProviderFactory;
import ca.uhn.fhir.rest.server.util.ISearchParamRegistry;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import java.util.List;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;

/**
 * The HTTP door in front of the storage: JSON by default, every resource type of the release,
 * transactions.
 */
final class FhirDoor extends RestfulServer {

  private static final long serialVersionUID = 1L;

  FhirDoor(
      FhirContext fhir,
      ResourceProviderFactory resources,
      JpaSystemProvider<?, ?> system,
      DatabaseBackedPagingProvider paging,
      IInterceptorService interceptors) {
    super(fhir);
    setInterceptorService(interceptors);
    setDefaultResponseEncoding(EncodingEnum.JSON);
    setPagingProvider(paging);
    registerProviders(resources.createProviders());
    registerProvider(system);
  }

  void describeItself(
      IFhirSystemDao<?, ?> system,
      JpaStorageSettings settings,
      ISearchParamRegistry searchParameters,
      IValidationSupport definitions) {
    JpaCapabilityStatementProvider statement =
        new JpaCapabilityStatementProvider(this, system, settings, searchParameters, definitions);
    statement.setImplementationDescription("Records server for demonstration and tests");
    setServerConformanceProvider(statement);
  }

  void validateWrites(IValidationSupport definitions) {
    FhirInstanceValidator validator = new FhirInstanceValidator(definitions);
    // A server that has never heard of the sender's profiles judges by base FHIR.
    validator.setErrorForUnknownProfiles(false);
    RequestValidatingInterceptor gate = new RequestValidatingInterceptor();
    gate.setValidatorModules(List.of(validator));
    gate.setFailOnSeverity(ResultSeverityEnum.ERROR);
    registerInterceptor(gate);
  }
}
