package org.intercusp.registry.bundle;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.intercusp.treatment.submission.Course;
import org.intercusp.treatment.submission.CourseStatus;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** Course and assessments as components of Observations, both ways. */
final class CourseItems {

  private static final List<String> STAGES = List.of("active", "support", "fixed", "retention");

  /** Member of the record, item of the Observation. */
  private static final List<List<String>> PAR =
      List.of(
          List.of("upperAnterior", "upper-anterior"),
          List.of("lowerAnterior", "lower-anterior"),
          List.of("buccalRight", "buccal-right"),
          List.of("buccalLeft", "buccal-left"),
          List.of("overjet", "overjet"),
          List.of("overbite", "overbite"),
          List.of("centreline", "centreline"));

  private static final List<List<String>> ICON =
      List.of(
          List.of("aesthetic", "aesthetic"),
          List.of("crowdingSpacing", "crowding-spacing"),
          List.of("crossbite", "crossbite"),
          List.of("vertical", "vertical"),
          List.of("buccalRight", "buccal-right"),
          List.of("buccalLeft", "buccal-left"));

  private final Canonicals canonicals;

  CourseItems(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  void course(Course course, Observation into) {
    Items items = new Items(canonicals, into);
    items.code("appliance", LocalSystem.APPLIANCE_TYPE, course.appliance().code());
    items.day("first-fitted", course.firstFittedOn());
    items.code(
        "growth-stage",
        LocalSystem.GROWTH_STAGE,
        course.growthStage() == null ? null : course.growthStage().code());
    if (course.status() == CourseStatus.UNKNOWN) {
      items.unknown("status");
    } else {
      items.code("status", LocalSystem.TREATMENT_STATUS, course.status().code());
    }
    items.code(
        "reason",
        LocalSystem.COMPLETION_REASON,
        course.reason() == null ? null : course.reason().code());
    items.day("decided", course.decidedOn());
    items.day("last-attended", course.lastAttendedOn());
    Course.StageDays days = course.stageDays();
    if (days != null) {
      days("active", days.active(), items);
      days("support", days.support(), items);
      days("fixed", days.fixed(), items);
      days("retention", days.retention(), items);
    }
    items.count("reviews", course.reviews());
    items.quantity("wear-reported", hours(course.wearReported()), "h/d");
    items.quantity("wear-measured", hours(course.wearMeasured()), "h/d");
    items.count("breakages", course.breakages());
    for (Course.HarmCount each : course.adverseEvents()) {
      items.count("harm-" + each.code().code(), each.count());
      items.count("serious-" + each.code().code(), each.serious());
    }
  }

  private static void days(String stage, @Nullable Integer days, Items items) {
    items.quantity("days-" + stage, days == null ? null : BigDecimal.valueOf(days), "d");
  }

  private static @Nullable BigDecimal hours(@Nullable HoursPerDay wear) {
    return wear == null ? null : wear.value();
  }

  void assessment(Course.Assessment each, Observation into) {
    LocalDate date = each.date();
    into.setEffective(new DateTimeType(date.toString()));
    into.setValue(Items.concept(canonicals, LocalSystem.OUTCOME_PHASE, each.phase().code()));
    Items items = new Items(canonicals, into);
    items.quantity("overjet", millimetres(each.overjet()), "mm");
    items.quantity("overbite", millimetres(each.overbite()), "mm");
    par("par-", each.par(), items);
    par("par-again-", each.parAgain(), items);
    items.code("dhc", LocalSystem.DENTAL_HEALTH_COMPONENT, each.dhc());
    Icon icon = each.icon();
    if (icon != null) {
      List<Integer> values =
          List.of(
              icon.aesthetic(),
              icon.crowdingSpacing(),
              icon.crossbite(),
              icon.vertical(),
              icon.buccalRight(),
              icon.buccalLeft());
      for (int i = 0; i < values.size(); i++) {
        items.count("icon-" + ICON.get(i).get(1), values.get(i));
      }
    }
    items.count("aesthetic", each.aesthetic());
  }

  private static @Nullable BigDecimal millimetres(@Nullable Length length) {
    return length == null ? null : length.value();
  }

  private static void par(String prefix, @Nullable Par par, Items items) {
    if (par != null) {
      List<Integer> values =
          List.of(
              par.upperAnterior(),
              par.lowerAnterior(),
              par.buccalRight(),
              par.buccalLeft(),
              par.overjet(),
              par.overbite(),
              par.centreline());
      for (int i = 0; i < values.size(); i++) {
        items.count(prefix + PAR.get(i).get(1), values.get(i));
      }
    }
  }

  /** Puts the course, where there is one, into a record. */
  void read(List<Observation> observations, Patient patient, ObjectNode record) {
    for (Observation each : observations) {
      if (is(each, "course")) {
        ObjectNode course = record.putObject("course");
        if (patient.hasBirthDate()) {
          course.put("birthDate", patient.getBirthDateElement().getValueAsString());
        }
        if (patient.hasGender()) {
          course.put("sex", patient.getGender().toCode());
        }
        course(new Items(canonicals, each), course);
        ArrayNode assessments = course.putArray("assessments");
        observations.stream()
            .filter(other -> is(other, "assessment"))
            .forEach(other -> assessment(other, assessments.addObject()));
      }
    }
  }

  private boolean is(Observation observation, String item) {
    return observation.getCode().hasCoding(canonicals.of(LocalSystem.REGISTRY_ITEM), item);
  }

  private static void course(Items items, ObjectNode course) {
    items.read("appliance", course, "appliance");
    items.read("first-fitted", course, "firstFittedOn");
    items.read("growth-stage", course, "growthStage");
    if (items.isUnknown("status")) {
      course.put("status", CourseStatus.UNKNOWN.code());
    } else {
      items.read("status", course, "status");
    }
    items.read("reason", course, "reason");
    items.read("decided", course, "decidedOn");
    items.read("last-attended", course, "lastAttendedOn");
    if (STAGES.stream().anyMatch(stage -> items.has("days-" + stage))) {
      ObjectNode days = course.putObject("stageDays");
      STAGES.forEach(stage -> items.read("days-" + stage, days, stage));
    }
    items.read("reviews", course, "reviews");
    items.read("wear-reported", course, "wearReported");
    items.read("wear-measured", course, "wearMeasured");
    items.read("breakages", course, "breakages");
    ArrayNode events = course.putArray("adverseEvents");
    for (HarmEvent.Code code : HarmEvent.Code.values()) {
      if (items.has("harm-" + code.code())) {
        ObjectNode event = events.addObject().put("code", code.code());
        items.read("harm-" + code.code(), event, "count");
        items.read("serious-" + code.code(), event, "serious");
      }
    }
  }

  private void assessment(Observation observation, ObjectNode into) {
    if (observation.getValue() instanceof CodeableConcept phase) {
      into.put("phase", phase.getCodingFirstRep().getCode());
    }
    if (observation.getEffective() instanceof DateTimeType day) {
      into.put("date", day.getValueAsString());
    }
    Items items = new Items(canonicals, observation);
    items.read("overjet", into, "overjet");
    items.read("overbite", into, "overbite");
    group("par-", "par", PAR, items, into);
    group("par-again-", "parAgain", PAR, items, into);
    items.read("dhc", into, "dhc");
    group("icon-", "icon", ICON, items, into);
    items.read("aesthetic", into, "aesthetic");
  }

  private static void group(
      String prefix, String member, List<List<String>> names, Items items, ObjectNode into) {
    if (names.stream().anyMatch(name -> items.has(prefix + name.get(1)))) {
      ObjectNode group = into.putObject(member);
      names.forEach(name -> items.read(prefix + name.get(1), group, name.get(0)));
    }
  }
}
