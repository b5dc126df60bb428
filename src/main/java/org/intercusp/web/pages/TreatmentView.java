package org.intercusp.web.pages;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.summary.content.Part;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.Diagnosis;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * All of one treatment, in words.
 *
 * @param clinic for addresses, where its id alone is not enough
 * @param version the newest, which everything on the page is of
 * @param day the day it is judged at
 * @param late that a review is late by today; else empty
 * @param proposed how many changes of recipients' people nobody has decided on
 * @param nextVisit the card; empty once treatment has ended
 */
public record TreatmentView(
    Treatment treatment,
    Examination examination,
    @Nullable String clinic,
    int version,
    LocalDate day,
    String late,
    List<FindingView> findings,
    List<Part.Field> nextVisit,
    List<FigureGroup> figures,
    Pictures pictures,
    List<DeliveryView> deliveries,
    List<Recipient> recipients,
    long proposed,
    List<VersionView> versions) {

  /** A stored version. */
  public record VersionView(int number, String received, @Nullable String compare) {}

  /** A document to read and print. */
  public record Paper(String title, String page, String pdf) {}

  public String name() {
    return treatment.patient().name();
  }

  /** Who it is, in one line. */
  public String who() {
    Patient patient = treatment.patient();
    int age = patient.age(day);
    return "born "
        + patient.birthDate()
        + ", "
        + Unit.YEAR.behind(age)
        + ", "
        + patient.sex().code();
  }

  /** What it started from, in one line. */
  public String diagnosis() {
    Diagnosis diagnosis = treatment.diagnosis();
    return "Class "
        + diagnosis.incisorClass().code()
        + ", overjet "
        + Numbers.of(diagnosis.overjet())
        + ", overbite "
        + Numbers.of(diagnosis.overbite())
        + " at assessment on "
        + diagnosis.assessedOn();
  }

  /** Where it stands, in one line. */
  public String standing() {
    Completion completion = treatment.completion();
    String status = completion == null ? "in treatment" : Trade.words(completion.status().code());
    return status + ", " + counted(treatment.reviews().size(), "review");
  }

  private static String counted(int count, String one) {
    return count + " " + (count == 1 ? one : one + "s");
  }

  /** Whether the record itself says which day it speaks of. */
  public boolean dated() {
    return treatment.asOf() != null;
  }

  /** Signs of harm nobody has answered. */
  public List<FindingView> harm() {
    return findings.stream().filter(one -> one.judged().stopsOrders()).toList();
  }

  /** Whether somebody typed a reason for a finding that is not open any more. */
  public boolean homeless(AcceptanceForm typed) {
    return !typed.reason().isEmpty()
        && findings.stream().noneMatch(one -> one.open() && typed.isFor(one));
  }

  /** What the patient decided, where the record may not be passed on by it; else empty. */
  public String consentEnded() {
    Consent consent = treatment.patient().consent();
    if (consent == null) {
      return "";
    }
    if (!consent.given()) {
      return "Consent to pass the record on was refused on " + consent.recordedOn() + ".";
    }
    return consent.withdrawnOn() == null
        ? ""
        : "Consent to pass the record on is withdrawn from " + consent.withdrawnOn() + " on.";
  }

  /** Whether nobody was asked, so far as the record knows. */
  public boolean consentMissing() {
    return treatment.patient().consent() == null;
  }

  /** Whether anything may be sent to anybody. */
  public boolean consents() {
    return !consentMissing() && consentEnded().isEmpty();
  }

  /** What the patient must not meet, told apart from nobody having asked. */
  public String allergies() {
    List<String> allergies = treatment.patient().allergies();
    if (allergies == null) {
      return "not recorded whether any";
    }
    return allergies.isEmpty() ? "none known" : String.join("; ", allergies);
  }

  /** What holds a delivery back. */
  public long stopping() {
    return findings.stream().filter(one -> one.judged().stops()).count();
  }

  /** The place of an acceptance in the record, for withdrawing it. */
  public int place(Acceptance acceptance) {
    return treatment.acceptances().indexOf(acceptance);
  }

  /** Acceptances that count for no finding any more. */
  public List<Acceptance> idle() {
    return treatment.acceptances().stream()
        .filter(
            acceptance ->
                findings.stream()
                    .noneMatch(
                        one -> one.accepted() && acceptance.equals(one.judged().acceptance())))
        .toList();
  }

  public List<Paper> papers() {
    return List.of(
        paper("Summary for the dentist", "dentist", null),
        paper("Laboratory sheet", "laboratory", null),
        paper("Patient sheet in English", "patient", "en"),
        paper("Patient sheet in German", "patient", "de"));
  }

  private Paper paper(String title, String audience, @Nullable String language) {
    return new Paper(
        title, document(audience, language, null), document(audience, language, "pdf"));
  }

  private String document(String audience, @Nullable String language, @Nullable String format) {
    return Place.of("treatments", treatment.id(), "summary")
        .with("for", audience)
        .with("language", language)
        .with("format", format)
        .with("clinic", clinic)
        .toString();
  }

  /** Where the forms of the page go. */
  public String action(String what) {
    return Place.of("pages", "treatments", treatment.id()) + "/" + what + query();
  }

  private String query() {
    String place = Place.of("x").with("clinic", clinic).toString();
    return place.substring(2);
  }

  /** Where what recipients' people changed stands. */
  public String proposals() {
    return Place.of("treatments", treatment.id(), "proposals").with("clinic", clinic).toString();
  }

  public String comparing() {
    return Place.of("treatments", treatment.id(), "compare").toString();
  }
}
