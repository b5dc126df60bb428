package org.intercusp.exchange;

import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.Token;

/** One parameter of a search, read once and then asked of every resource. */
final class Sought {

  private Sought() {}

  /**
   * A parameter as it stands in a URL.
   *
   * @param value percent-encoded
   */
  static Predicate<Resource> of(String parameter, String value) {
    return switch (parameter) {
      case "_count" -> one -> true;
      case "_id" -> identified(Set.of(value.split(",")));
      case "_lastUpdated" -> since(Instant.parse(value.substring("ge".length())));
      case "subject", "patient" -> about(Set.of(value.split(",")));
      case "code" -> coded(decoded(value.split("%2C|,")));
      default -> named(parameter, decoded(value.split("%2C|,")));
    };
  }

  private static List<String[]> decoded(String[] values) {
    return Stream.of(values)
        .map(one -> URLDecoder.decode(one, StandardCharsets.UTF_8).split("\\|", 2))
        .toList();
  }

  private static Predicate<Resource> identified(Set<String> ids) {
    return one -> ids.contains(one.getIdElement().getIdPart());
  }

  private static Predicate<Resource> since(Instant time) {
    return one -> !one.getMeta().getLastUpdated().toInstant().isBefore(time);
  }

  private static Predicate<Resource> about(Set<String> places) {
    return resource ->
        subjects(resource)
            .anyMatch(
                one ->
                    one instanceof Reference reference
                        && places.contains(String.valueOf(reference.getReference())));
  }

  private static Stream<Base> subjects(Resource resource) {
    if (resource instanceof Appointment appointment) {
      return appointment.getParticipant().stream().map(one -> one.getActor());
    }
    return Stream.of("subject", "patient", "for")
        .map(resource::getNamedProperty)
        .filter(Objects::nonNull)
        .flatMap(property -> property.getValues().stream());
  }

  private static Predicate<Resource> coded(List<String[]> codes) {
    return resource ->
        resource instanceof Observation observation
            && codes.stream().anyMatch(one -> observation.getCode().hasCoding(one[0], one[1]));
  }

  private static Predicate<Resource> named(String parameter, List<String[]> names) {
    Set<Token> tokens =
        names.stream().map(one -> new Token(parameter, one[0], one[1])).collect(Collectors.toSet());
    return resource -> on(parameter, resource).anyMatch(tokens::contains);
  }

  private static Stream<Token> on(String parameter, Resource resource) {
    if (parameter.equals(Token.TAG)) {
      return resource.getMeta().getTag().stream()
          .map(tag -> new Token(parameter, text(tag.getSystem()), text(tag.getCode())));
    }
    return Token.identifiers(resource).stream()
        .map(one -> new Token(parameter, text(one.getSystem()), text(one.getValue())));
  }

  private static String text(String value) {
    return value == null ? "" : value;
  }
}
