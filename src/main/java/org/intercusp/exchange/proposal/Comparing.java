package org.intercusp.exchange.proposal;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Chart;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Likeness;
import org.intercusp.exchange.records.Origin;
import org.intercusp.exchange.records.Survey;
import org.intercusp.exchange.wire.Place;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.fhir.Unplaced;
import org.intercusp.treatment.TreatmentWriter;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Holds what a recipient has of a treatment against what was delivered, and finds what its people
 * changed since. Resources that are as they were left say nothing new, however the server wrote
 * them; so does a value that a later version of ours has, which was on its way there.
 */
final class Comparing {

  /** What the clinic knows better than anybody: only listed where it is another. */
  private static final Set<String> THE_CLINICS =
      Set.of("asOf", "clinic", "clinician", "referrer", "laboratory", "acceptances");

  /** Names the file is found by; a server's order of identifiers is no change of them. */
  private static final Set<String> NAMES = Set.of("/format", "/id");

  private static final String PATIENT_NUMBER = "/patient/identifier";

  private static final Pattern PLACE = Pattern.compile("Bundle\\.entry\\[(\\d+)]\\.resource");

  private static final String UNPLANNED =
      "The recipient holds no treatment plan of this treatment any more";

  private static final String EMPTIED =
      "The recipient holds nothing of this treatment any more, nor the patient as delivered: its"
          + " records were deleted as a whole, or another server answers there. Nothing is lost"
          + " here, and the next delivery brings everything again";

  private final TreatmentMapper mapper;
  private final TreatmentWriter writer = new TreatmentWriter();
  private final Chart chart;
  private final Ledger ledger;
  private final Likeness likeness;
  private final Map<String, Part> parts = new LinkedHashMap<>();
  private final List<Aside> beyond = new ArrayList<>();
  private final Set<String> settled = new HashSet<>();

  /**
   * What one resource says otherwise.
   *
   * @param subject the same for the same resource
   */
  record Part(String subject, List<Change> changes, List<Beyond> beyond, List<Origin> origins) {}

  /**
   * What has no place.
   *
   * @param origin the resource that says it; absent where it is not there any more
   */
  record Aside(Beyond what, @Nullable Origin origin) {}

  /**
   * What was found.
   *
   * @param parts what can be put into the file
   * @param beyond what can't
   * @param settled keys of differences that stand where everything has been decided on
   * @param faults why what the recipient holds can't be read as this treatment; then there is
   *     nothing else
   */
  record Found(List<Part> parts, List<Aside> beyond, Set<String> settled, List<String> faults) {}

  Comparing(TreatmentMapper mapper, Chart chart, Ledger ledger, Likeness likeness) {
    this.mapper = mapper;
    this.chart = chart;
    this.ledger = ledger;
    this.likeness = likeness;
  }

  /**
   * Compares.
   *
   * @param base what was delivered last
   * @param later versions of ours that were tried to be delivered after it
   */
  Found with(Base base, List<JsonNode> later) {
    List<ReadBack> read = mapper.treatments(chart.bundle());
    if (isAsLeft() && (read.size() != 1 || read.get(0).treatment() == null)) {
      // A server that does not keep all it is given: that is no change of anybody's.
      return new Found(List.of(), List.of(), Set.of(), List.of());
    }
    if (read.size() != 1) {
      return faulty(List.of(isEmptied() ? EMPTIED : UNPLANNED));
    }
    ReadBack theirs = read.get(0);
    if (theirs.treatment() == null) {
      return faulty(
          theirs.faults().stream().map(fault -> addressed(fault.message())).distinct().toList());
    }
    JsonNode file = Placing.JSON.readTree(writer.write(theirs.treatment()));
    for (Placing.Difference difference : Placing.between(base.file(), file)) {
      boolean echo =
          later.stream()
              .anyMatch(
                  one ->
                      Placing.same(
                          Placing.at(one, difference.path()).orElse(null), difference.after()));
      if (!echo && !NAMES.contains(difference.path())) {
        difference(difference, theirs, base);
      }
    }
    strays(theirs);
    return new Found(List.copyOf(parts.values()), beyond, settled, List.of());
  }

  private static Found faulty(List<String> faults) {
    return new Found(List.of(), List.of(), Set.of(), faults);
  }

  /**
   * What was delivered last.
   *
   * @param file its treatment file
   * @param names the resource that stood for a place, by JSON pointer
   */
  record Base(JsonNode file, java.util.function.Function<String, Optional<Ledger.Name>> names) {}

  private void difference(Placing.Difference difference, ReadBack theirs, Base base) {
    Optional<Resource> resource = resource(difference, theirs, base);
    if (difference.path().startsWith(PATIENT_NUMBER)) {
      return;
    }
    String key = difference.path() + "|" + Likeness.digest(Placing.canonical(difference.after()));
    // Of what was deleted it is asked whether to send it again: nobody said the value is wrong.
    boolean deleted =
        resource.isEmpty()
            && base.names().apply(difference.pointerBefore()).filter(this::isDeleted).isPresent();
    if (deleted || resource.filter(this::isUntouched).isPresent()) {
      settled.add(key);
      return;
    }
    if (THE_CLINICS.contains(difference.path().split("/", -1)[1])) {
      String at = resource.map(one -> Place.of(one) + " for ").orElse("") + difference.path();
      beyond.add(
          new Aside(
              new Beyond(at, shown(difference.after())), resource.map(this::origin).orElse(null)));
      return;
    }
    Change change =
        new Change(
            difference.path(), difference.before(), difference.after(), List.of(key), List.of());
    if (resource.isPresent()) {
      part(resource.get()).changes().add(change);
    } else {
      String gone =
          base.names().apply(difference.pointerBefore()).map(Ledger.Name::toString).orElse("gone");
      parts.computeIfAbsent(gone, one -> part(one, List.of())).changes().add(change);
    }
  }

  private static String shown(@Nullable JsonNode value) {
    return value == null ? "not there" : value.isString() ? value.stringValue() : value.toString();
  }

  /** The recipient's resource that says it; empty where it is no longer there. */
  private Optional<Resource> resource(Placing.Difference difference, ReadBack theirs, Base base) {
    if (difference.after() != null) {
      return theirs
          .expression(new org.intercusp.finding.Pointer(difference.pointerAfter()))
          .flatMap(this::entry);
    }
    return base.names().apply(difference.pointerBefore()).flatMap(this::named);
  }

  private Optional<Resource> named(Ledger.Name name) {
    return chart.bundle().getEntry().stream()
        .map(entry -> entry.getResource())
        .filter(one -> own(one).filter(name::equals).isPresent())
        .findFirst();
  }

  private Optional<Resource> entry(String expression) {
    Matcher place = PLACE.matcher(expression);
    return place.lookingAt()
        ? Optional.of(chart.bundle().getEntry().get(Integer.parseInt(place.group(1))).getResource())
        : Optional.empty();
  }

  /** With addresses at the recipient instead of places in a Bundle. */
  private String addressed(String text) {
    return PLACE
        .matcher(text)
        .replaceAll(
            place ->
                Matcher.quoteReplacement(
                    Place.of(
                        chart
                            .bundle()
                            .getEntry()
                            .get(Integer.parseInt(place.group(1)))
                            .getResource())));
  }

  private static Part part(String subject, List<Origin> origins) {
    return new Part(subject, new ArrayList<>(), new ArrayList<>(), new ArrayList<>(origins));
  }

  private Part part(Resource resource) {
    return parts.computeIfAbsent(
        Place.of(resource), subject -> part(subject, List.of(origin(resource))));
  }

  private Origin origin(Resource resource) {
    return Origin.of(resource, likeness, ledger);
  }

  private static Optional<Ledger.Name> own(Resource resource) {
    return Survey.own(resource)
        .map(name -> new Ledger.Name(name.type(), name.token().system(), name.token().value()));
  }

  /** Whether it is as it was left after the last delivery. */
  private boolean isUntouched(Resource resource) {
    return Survey.own(resource)
        .flatMap(name -> ledger.line(name.type(), name.token()))
        .filter(line -> line.stored().equals(likeness.digest(resource)))
        .isPresent();
  }

  private boolean isDeleted(Ledger.Name name) {
    return chart.deleted().stream().anyMatch(line -> line.name().equals(name));
  }

  /** Whether all that is there is as it was left: what was deleted is told by itself. */
  private boolean isAsLeft() {
    return ledger.lines().stream()
        .filter(line -> !line.withdrawn())
        .map(Ledger.Line::name)
        .filter(name -> !isDeleted(name))
        .allMatch(name -> named(name).filter(this::isUntouched).isPresent());
  }

  private boolean isEmptied() {
    return ledger.lines().stream().allMatch(line -> named(line.name()).isEmpty());
  }

  private void strays(ReadBack theirs) {
    for (Unplaced stray : theirs.unplaced()) {
      Optional<Resource> resource = entry(stray.expression());
      if (resource.isEmpty() || isUntouched(resource.get())) {
        continue;
      }
      // Of people and organisations, which are the recipient's own, the place is enough.
      boolean ours = own(resource.get()).isPresent();
      Beyond one = new Beyond(addressed(stray.expression()), ours ? stray.value() : "");
      Part part = parts.get(Place.of(resource.get()));
      if (part == null) {
        beyond.add(new Aside(one, origin(resource.get())));
      } else {
        part.beyond().add(one);
      }
    }
  }
}
