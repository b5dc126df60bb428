package org.intercusp.web.fhir;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.access.CurrentCaller;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.Weight;
import org.intercusp.registry.bundle.OutcomeBundleIntake;
import org.intercusp.registry.bundle.OutcomeBundleIntake.Taken;
import org.intercusp.registry.intake.LoadCounts;
import org.intercusp.registry.intake.Senders;
import org.intercusp.web.api.OutcomeSenders;
import org.intercusp.web.api.RegistryDeeds;
import org.intercusp.web.fhir.BundleIntake.Submitted;
import org.springframework.stereotype.Component;

/**
 * Takes outcome Bundles for the registry. Nothing of them stays readable here, so the entries of
 * the answer have no location.
 */
@Component
class OutcomeTaking {

  private final Conformance conformance;
  private final OutcomeBundleIntake intake;
  private final CurrentCaller callers;
  private final RegistryDeeds deeds;

  OutcomeTaking(
      Conformance conformance,
      OutcomeBundleIntake intake,
      CurrentCaller callers,
      RegistryDeeds deeds) {
    this.deeds = deeds;
    this.conformance = conformance;
    this.intake = intake;
    this.callers = callers;
  }

  Bundle take(Submitted submitted) {
    Senders senders = OutcomeSenders.of(callers.caller());
    if (senders.isNobody()) {
      throw Fault.of(Reason.FORBIDDEN, "You speak for no clinic, so nothing could be taken.");
    }
    List<Issue> stopping =
        conformance.validate(submitted.document().bytes(), submitted.document().format()).stream()
            .filter(issue -> issue.weight().stops())
            .toList();
    if (!stopping.isEmpty()) {
      deeds.refused("an outcome Bundle that does not conform");
      throw Fault.of(Reason.NOT_CONFORMANT, stopping);
    }
    return answer(submitted.bundle(), taken(submitted.bundle(), senders));
  }

  private LoadCounts taken(Bundle bundle, Senders senders) {
    Taken taken;
    try {
      taken = intake.take(bundle, senders);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    if (taken instanceof Taken.Refused refused) {
      deeds.refused("an outcome Bundle that is no outcome record");
      throw Fault.of(
          Reason.NOT_CONFORMANT,
          refused.reasons().stream()
              .map(
                  reason ->
                      Fault.issue(
                          Reason.NOT_CONFORMANT,
                          Weight.ERROR,
                          reason.code() + " at " + reason.at() + ": expected " + reason.expected()))
              .toList());
    }
    LoadCounts counts = ((Taken.Counted) taken).status().counts();
    if (counts.refused() > 0) {
      // The rules have passed it by now: what is left is whom it speaks for.
      throw Fault.of(Reason.FORBIDDEN, "The submitter or the clinic is not one you may speak for.");
    }
    return counts;
  }

  private static Bundle answer(Bundle submitted, LoadCounts counts) {
    Bundle answer = new Bundle().setType(Bundle.BundleType.TRANSACTIONRESPONSE);
    String status = counts.fresh() > 0 ? "201 Created" : "200 OK";
    submitted.getEntry().forEach(entry -> answer.addEntry().getResponse().setStatus(status));
    return answer;
  }
}
