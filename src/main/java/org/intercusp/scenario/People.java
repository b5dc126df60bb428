package org.intercusp.scenario;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Organisation;
import org.intercusp.treatment.Patient;
import org.intercusp.treatment.Person;
import org.intercusp.treatment.Sex;
import org.jspecify.annotations.Nullable;

/** Who takes part in one invented treatment. */
final class People {

  private static final String PLACE = "https://harbour-lane.example/";

  static final Organisation CLINIC =
      new Organisation(
          new Identifier(PLACE + "organisations", "harbour-lane"),
          "Harbour Lane Orthodontics",
          "+44 1632 960100");

  static final Person CLINICIAN = staff("S-07", "Okonjo", "Miriam");
  static final Person SECOND = staff("S-09", "Vasilev", "Toma");

  private static final List<Person> REFERRERS =
      List.of(
          referrer("R-22", "Castellan", "Iris", "Quayside Dental Practice"),
          referrer("R-31", "Oyelaran", "Femi", "Mill Green Dental Practice"),
          referrer("R-45", "Strand", "Liv", null));

  private static final List<Organisation> LABORATORIES =
      List.of(
          laboratory("lab-3", "Tidewater Dental Laboratory"), laboratory("lab-5", "Gantry Bench"));

  private static final List<String> FAMILIES =
      List.of(
          "Abara",
          "Bélanger",
          "Castro",
          "Dunmore",
          "Eriksen",
          "Faulkner",
          "Gwynne",
          "Haddad",
          "Ivanova",
          "Jónsdóttir",
          "Kowalczyk",
          "Lindqvist",
          "Mbeki-Roy",
          "Nakamura",
          "O'Driscoll",
          "Pereira",
          "Quill",
          "Rahman",
          "Søndergaard",
          "Tanaka",
          "Ulrich",
          "Vance",
          "Whitlock",
          "Xu",
          "Yılmaz",
          "Zielińska");

  private static final List<String> GIRLS =
      List.of("Ada", "Bea", "Chloé", "Dina", "Esme", "Freya", "Gita", "Hana", "Inês", "Zoë");

  private static final List<String> BOYS =
      List.of("Arlo", "Ben", "Ciarán", "Dev", "Emil", "Finn", "Gus", "Hugo", "Idris", "Noé");

  private final Person clinician;
  private final @Nullable Person referrer;
  private final @Nullable Organisation laboratory;
  private final Patient patient;

  People(Draw draw, Mouth mouth, String number) {
    this.clinician = draw.chance(0.7) ? CLINICIAN : SECOND;
    this.referrer = draw.chance(0.9) ? draw.pick(REFERRERS) : null;
    this.laboratory = draw.chance(0.97) ? draw.pick(LABORATORIES) : null;
    Sex sex = draw.chance(0.005) ? Sex.UNKNOWN : draw.chance(0.5) ? Sex.FEMALE : Sex.MALE;
    List<String> given = new ArrayList<>();
    given.add(draw.pick(sex == Sex.MALE ? BOYS : GIRLS));
    if (draw.chance(0.3)) {
      given.add(draw.pick(sex == Sex.MALE ? BOYS : GIRLS));
    }
    this.patient =
        new Patient(
            new Identifier(PLACE + "patients", "P-" + number),
            draw.pick(FAMILIES),
            given,
            mouth.birthDate,
            sex,
            mouth.allergies.isEmpty() && draw.chance(0.1) ? null : mouth.allergies,
            draw.chance(0.95) ? consent(draw, mouth.assessedOn) : null);
  }

  private static Consent consent(Draw draw, LocalDate on) {
    List<ConsentScope> scope = new ArrayList<>(List.of(ConsentScope.LABORATORY));
    add(draw, scope, ConsentScope.HOSPITAL, 0.95);
    add(draw, scope, ConsentScope.REFERRER, 0.97);
    add(draw, scope, ConsentScope.REGISTRY, 0.85);
    LocalDate withdrawn = on.plusDays(draw.whole(60, 700));
    boolean isWithdrawn = draw.chance(0.015) && !withdrawn.isAfter(Mouth.AS_OF);
    return new Consent(
        draw.chance(0.99),
        draw.chance(0.6) ? "mother" : draw.chance(0.8) ? "father" : "guardian",
        on,
        isWithdrawn ? withdrawn : null,
        scope);
  }

  private static void add(Draw draw, List<ConsentScope> scope, ConsentScope one, double chance) {
    if (draw.chance(chance)) {
      scope.add(one);
    }
  }

  static Person staff(String value, String family, String given) {
    return new Person(
        new Identifier(PLACE + "staff", value), family, List.of(given), CLINIC.name());
  }

  private static Person referrer(
      String value, String family, String given, @Nullable String practice) {
    return new Person(new Identifier(PLACE + "referrers", value), family, List.of(given), practice);
  }

  private static Organisation laboratory(String value, String name) {
    return new Organisation(new Identifier(PLACE + "organisations", value), name, null);
  }

  Person clinician() {
    return clinician;
  }

  @Nullable Person referrer() {
    return referrer;
  }

  @Nullable Organisation laboratory() {
    return laboratory;
  }

  Patient patient() {
    return patient;
  }

  String seenBy() {
    return clinician.given().get(0).charAt(0) + ". " + clinician.family();
  }
}
