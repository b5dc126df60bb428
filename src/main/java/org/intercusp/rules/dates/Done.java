package org.intercusp.rules.dates;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import org.intercusp.finding.Pointer;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** Something done on a day: where it stands in the file, whose it is, and what it is called. */
record Done(Pointer at, String subject, String what, LocalDate day) {

  /** Everything a treatment says was done, in the order of the file. */
  static List<Done> of(Treatment treatment) {
    List<Done> done = new ArrayList<>();
    Consent consent = treatment.patient().consent();
    if (consent != null) {
      Pointer at = Pointer.of("patient", "consent");
      add(done, at.child("recordedOn"), treatment.id(), "consent", consent.recordedOn());
      add(done, at.child("withdrawnOn"), treatment.id(), "withdrawal", consent.withdrawnOn());
    }
    Pointer assessed = Pointer.of("diagnosis", "assessedOn");
    add(done, assessed, treatment.id(), "assessment", treatment.diagnosis().assessedOn());
    each(
        "bites",
        treatment.bites(),
        (at, b) -> add(done, at.child("recordedOn"), b.id(), "bite", b.recordedOn()));
    each("appliances", treatment.appliances(), (at, a) -> appliance(done, at, a));
    each("reviews", treatment.reviews(), (at, r) -> review(done, at, r));
    each(
        "films",
        treatment.films(),
        (at, f) -> add(done, at.child("takenOn"), f.id(), "film", f.takenOn()));
    each(
        "models",
        treatment.models(),
        (at, m) -> add(done, at.child("takenOn"), m.id(), "model", m.takenOn()));
    each(
        "outcomes",
        treatment.outcomes(),
        (at, o) -> add(done, at.child("date"), o.id(), "scoring", o.date()));
    Completion completion = treatment.completion();
    if (completion != null) {
      Pointer at = Pointer.of("completion");
      add(done, at.child("decidedOn"), treatment.id(), "decision", completion.decidedOn());
      add(
          done,
          at.child("lastAttendedOn"),
          treatment.id(),
          "attendance",
          completion.lastAttendedOn());
    }
    each(
        "acceptances",
        treatment.acceptances(),
        (at, a) -> add(done, at.child("on"), treatment.id(), "acceptance", a.on()));
    return done;
  }

  private static void appliance(List<Done> done, Pointer at, Appliance appliance) {
    add(done, at.child("orderedOn"), appliance.id(), "order", appliance.orderedOn());
    add(done, at.child("fittedOn"), appliance.id(), "fitting", appliance.fittedOn());
  }

  private static void review(List<Done> done, Pointer at, Review review) {
    add(done, at.child("date"), review.id(), "review", review.date());
    Review.WearMeasured wear = review.wearMeasured();
    if (wear != null) {
      Pointer measured = at.child("wearMeasured");
      add(done, measured.child("from"), review.id(), "measured wear", wear.from());
      add(done, measured.child("to"), review.id(), "measured wear", wear.to());
    }
    for (int i = 0; i < review.adverseEvents().size(); i++) {
      Pointer event = at.child("adverseEvents").child(i).child("onsetOn");
      add(done, event, review.id(), "adverse event", review.adverseEvents().get(i).onsetOn());
    }
  }

  private static <T> void each(String member, List<T> list, BiConsumer<Pointer, T> next) {
    for (int i = 0; i < list.size(); i++) {
      next.accept(Pointer.of(member, i), list.get(i));
    }
  }

  private static void add(
      List<Done> done, Pointer at, String subject, String what, @Nullable LocalDate day) {
    if (day != null) {
      done.add(new Done(at, subject, what, day));
    }
  }
}
