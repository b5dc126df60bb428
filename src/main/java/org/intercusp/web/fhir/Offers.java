package org.intercusp.web.fhir;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Enumerations.SearchParamType;
import org.intercusp.fhir.Profile;
import org.intercusp.fhir.Role;
import org.intercusp.fhir.search.SearchedBy;

/** What this door has: the resource types, their profiles, and what each is searched by. */
final class Offers {

  /** Not of one patient, so not found by one. */
  private static final Set<String> WITHOUT_PATIENT =
      Set.of("Patient", "Organization", "Practitioner", "PractitionerRole");

  /** These are the wrapping of treatments, not kept by themselves. */
  private static final Set<String> WRAPPINGS = Set.of("Bundle", "Composition");

  /** What was done here is told as this type, which is no part of a treatment. */
  static final String TRAIL = "AuditEvent";

  private Offers() {}

  /**
   * A search parameter.
   *
   * @param code its name in a search
   * @param meaning one line for people
   */
  record Search(String code, SearchParamType type, String meaning) {

    static final Search ID = new Search("_id", SearchParamType.TOKEN, "Logical ids.");

    static final Search LAST_UPDATED =
        new Search("_lastUpdated", SearchParamType.DATE, "When the version was taken.");

    /** Of the trail. */
    static final Search RECORDED =
        new Search("date", SearchParamType.DATE, "When it was recorded.");

    static final Search IDENTIFIER =
        new Search(
            "identifier", SearchParamType.TOKEN, "Business identifiers, exactly as written.");

    static final Search PATIENT =
        new Search(
            "patient",
            SearchParamType.REFERENCE,
            "The patient it speaks of; patient.identifier finds the patient by business"
                + " identifier.");

    static final Search SUBJECT =
        new Search(
            "subject",
            SearchParamType.REFERENCE,
            "The patient it speaks of; subject.identifier finds the patient by business"
                + " identifier.");

    static Search of(SearchedBy by) {
      return new Search(by.code(), by.type(), by.meaning());
    }
  }

  /** Every type that treatments are kept as, sorted. */
  static Set<String> types() {
    Set<String> types = new TreeSet<>();
    kept().forEach(profile -> types.add(profile.type()));
    types.removeAll(WRAPPINGS);
    return types;
  }

  static List<Profile> profiles(String type) {
    return kept().stream().filter(one -> one.type().equals(type)).toList();
  }

  /** What treatments claim; what others submit to a registry is not kept here. */
  private static Set<Profile> kept() {
    Set<Profile> kept = EnumSet.of(Profile.PATIENT, Profile.PRACTITIONER, Profile.ORGANIZATION);
    Arrays.stream(Role.values()).map(Role::profile).forEach(kept::add);
    return kept;
  }

  /** Whether a parameter is none of R4's for this type, so that the profiles define it. */
  static boolean isOurs(String type, Search search) {
    return type.equals("AdverseEvent")
        && (search.equals(Search.IDENTIFIER) || search.equals(Search.PATIENT));
  }

  static List<Search> searches(String type) {
    if (type.equals(TRAIL)) {
      return List.of(Search.ID, Search.LAST_UPDATED, Search.RECORDED);
    }
    List<Search> searches = new ArrayList<>();
    searches.addAll(List.of(Search.ID, Search.LAST_UPDATED, Search.IDENTIFIER));
    if (!WITHOUT_PATIENT.contains(type)) {
      searches.add(Search.PATIENT);
      if (SearchedBy.hasSubject(type)) {
        searches.add(Search.SUBJECT);
      }
    }
    SearchedBy.of(type).forEach(by -> searches.add(Search.of(by)));
    return searches;
  }
}
