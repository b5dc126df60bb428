package org.intercusp.fhir;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Duration;
import org.hl7.fhir.r4.model.Extension;
import org.hl7.fhir.r4.model.PositiveIntType;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.hl7.fhir.r4.model.ServiceRequest.ServiceRequestIntent;
import org.hl7.fhir.r4.model.Timing;
import org.hl7.fhir.r4.model.Timing.UnitsOfTime;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Stage.Trimming;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * What a stage prescribes, as ServiceRequests: a review every so many weeks for so many months,
 * hours of wear, and trimming from a review on.
 */
final class StagePrescriptionMapper {

  private static final Kind<HoursPerDay> HOURS = Kind.quantity(Unit.HOURS_PER_DAY);
  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);

  List<Reference> toFhir(Stage stage, Writing writing) {
    List<Reference> made = new ArrayList<>();
    ServiceRequest rhythm = request(Codes.REVIEW_RHYTHM, writing);
    Duration length = new Duration();
    length.setValue(stage.months()).setUnit("months").setSystem(Codes.UCUM).setCode("mo");
    Timing timing = new Timing();
    timing
        .getRepeat()
        .setBounds(length)
        .setFrequency(1)
        .setPeriod(stage.reviewWeeks())
        .setPeriodUnit(UnitsOfTime.WK);
    rhythm.setOccurrence(timing);
    made.add(add(rhythm, Role.REVIEW_RHYTHM, stage, writing));
    HoursPerDay wear = stage.wearHours();
    if (wear != null) {
      ServiceRequest request = request(Codes.WEAR_PRESCRIBED, writing);
      request.setQuantity(HOURS.out().apply(wear, writing.canonicals()));
      made.add(add(request, Role.WEAR_PRESCRIBED, stage, writing));
    }
    Trimming trimming = stage.trimming();
    if (trimming != null) {
      ServiceRequest request = request(Codes.TRIMMING, writing);
      request.setQuantity(MM.out().apply(trimming.perVisit(), writing.canonicals()));
      request.addExtension(
          new Extension(
              writing.canonicals().fromReview(), new PositiveIntType(trimming.fromReview())));
      made.add(add(request, Role.TRIMMING, stage, writing));
    }
    return made;
  }

  private static ServiceRequest request(Concept code, Writing writing) {
    ServiceRequest request = new ServiceRequest();
    request.setIntent(ServiceRequestIntent.ORDER);
    request.setCode(code.concept(writing.canonicals()));
    request.setSubject(writing.patient());
    request.setRequester(writing.clinician());
    request.addReasonReference(writing.diagnosis());
    return request;
  }

  private static Reference add(ServiceRequest request, Role role, Stage stage, Writing writing) {
    request.setStatus(Over.of(stage, writing.treatment()).order());
    request.addBasedOn(writing.to("CarePlan", Role.STAGE, stage.id()));
    writing.add(request, role, stage.id());
    return writing.to("ServiceRequest", role, stage.id());
  }

  void fromFhir(ServiceRequest request, Draft stage, Reading reading) {
    String path = reading.path(request);
    Type quantity = request.hasQuantity() ? request.getQuantity() : null;
    String at = path + ".quantity";
    if (reading.is(Codes.REVIEW_RHYTHM, request.getCode())) {
      rhythm(request, stage, path + ".occurrence.repeat");
    } else if (reading.is(Codes.WEAR_PRESCRIBED, request.getCode())) {
      stage.put("wearHours", reading.value(HOURS, quantity, at), at);
    } else if (reading.is(Codes.TRIMMING, request.getCode())) {
      Draft trimming = stage.object("trimming", path);
      trimming.put("perVisit", reading.value(MM, quantity, at), at);
      Extension from = request.getExtensionByUrl(reading.canonicals().fromReview());
      if (from != null && from.getValue() instanceof PositiveIntType review) {
        trimming.put(
            "fromReview",
            JsonNodeFactory.instance.numberNode(review.getValue()),
            path + ".extension.value");
      }
    }
  }

  private static void rhythm(ServiceRequest request, Draft stage, String path) {
    if (!(request.getOccurrence() instanceof Timing timing)) {
      return;
    }
    Timing.TimingRepeatComponent repeat = timing.getRepeat();
    if (repeat.getBounds() instanceof Quantity bounds && "mo".equals(bounds.getCode())) {
      number(stage, "months", bounds.getValue(), path + ".bounds");
    }
    if (repeat.getPeriodUnit() == UnitsOfTime.WK
        && Integer.valueOf(1).equals(repeat.getFrequencyElement().getValue())) {
      number(stage, "reviewWeeks", repeat.getPeriod(), path + ".period");
    }
  }

  private static void number(Draft stage, String member, @Nullable BigDecimal value, String at) {
    if (value != null) {
      stage.put(member, JsonNodeFactory.instance.numberNode(value), at);
    }
  }
}
