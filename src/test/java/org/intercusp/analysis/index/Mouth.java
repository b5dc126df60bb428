package org.intercusp.analysis.index;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Lips;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.OutcomeFindings.Buccal;
import org.intercusp.treatment.OutcomeFindings.Buccal.AnteroPosterior;
import org.intercusp.treatment.OutcomeFindings.Buccal.Transverse;
import org.intercusp.treatment.OutcomeFindings.BuccalSides;
import org.intercusp.treatment.OutcomeFindings.OverbiteContact;
import org.intercusp.treatment.OutcomeScores;

/** A mouth without a fault, given faults one at a time. */
public final class Mouth {

  public String overjet = "2";
  public int edgeToEdge;
  public int anteriorCrossbite;
  public String overbite = "2";
  public String cover = "0.3";
  public OverbiteContact contact = OverbiteContact.NONE;
  public String lateralOpenBite = "0";
  public String centreline = "0";
  public List<Contact> upper = displaced("0", "0", "0", "0", "0");
  public List<Contact> lower = displaced("0", "0", "0", "0", "0");
  public String displacement = "0";
  public Buccal right = new Buccal(AnteroPosterior.FULL, false, Transverse.NONE);
  public Buccal left = right;
  public boolean crossbite;
  public String shift = "0";
  public boolean lingualCrossbite;
  public Lips lips = Lips.COMPETENT;
  public boolean mastication;
  public boolean speech;
  public List<Tooth> missing = List.of();
  public List<Tooth> impeded = List.of();
  public List<Tooth> tipped = List.of();
  public List<Tooth> submerged = List.of();
  public boolean supernumerary;
  public boolean cleft;
  public int aesthetic = 1;
  public String crowding = "0";
  public String spacing = "0";

  public OutcomeFindings findings() {
    return new OutcomeFindings(
        Length.of(overjet),
        edgeToEdge,
        anteriorCrossbite,
        Length.of(overbite),
        Share.of(cover),
        contact,
        Length.of(lateralOpenBite),
        Share.of(centreline),
        new Contacts(upper, lower),
        Length.of(displacement),
        new BuccalSides(right, left),
        crossbite,
        Length.of(shift),
        lingualCrossbite,
        lips,
        mastication,
        speech,
        missing,
        impeded,
        tipped,
        submerged,
        supernumerary,
        cleft,
        aesthetic,
        Length.of(crowding),
        Length.of(spacing));
  }

  /** The same mouth seen in a mirror. */
  public Mouth mirror() {
    Buccal other = right;
    right = left;
    left = other;
    upper = reversed(upper);
    lower = reversed(lower);
    missing = mirrored(missing);
    impeded = mirrored(impeded);
    tipped = mirrored(tipped);
    submerged = mirrored(submerged);
    return this;
  }

  public static List<Contact> displaced(String... millimetres) {
    return Stream.of(millimetres).<Contact>map(mm -> new Contact.Displaced(Length.of(mm))).toList();
  }

  public static List<Tooth> teeth(String... codes) {
    return Stream.of(codes).map(Tooth::new).toList();
  }

  public static Outcome outcome(
      String id, Outcome.Phase phase, OutcomeFindings findings, OutcomeScores scores) {
    return new Outcome(
        id,
        LocalDate.of(2026, 3, 2),
        phase,
        Outcome.Medium.SCAN,
        new Identifier("https://harbour-lane.example/examiners", "e1"),
        null,
        findings,
        scores,
        List.of());
  }

  private static List<Contact> reversed(List<Contact> contacts) {
    List<Contact> turned = new ArrayList<>(contacts);
    Collections.reverse(turned);
    return turned;
  }

  private static List<Tooth> mirrored(List<Tooth> teeth) {
    return teeth.stream().map(Tooth::mirrored).toList();
  }
}
