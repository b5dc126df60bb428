package org.intercusp.exchange.wire;

import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.CapabilityStatement;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.CapabilityStatementRestResourceComponent;
import org.hl7.fhir.r4.model.CapabilityStatement.RestfulCapabilityMode;
import org.hl7.fhir.r4.model.CodeType;
import org.intercusp.fhir.version.Release;

/**
 * What a server says it can do, as far as a delivery asks.
 *
 * @param json whether it reads and writes JSON; XML otherwise
 * @param types by resource type of R4; empty when the statement lists none, which says nothing
 */
public record Capabilities(
    Release release, boolean json, boolean transaction, boolean batch, Map<String, Type> types) {

  /** One resource type. */
  public record Type(boolean conditionalCreate, boolean conditionalUpdate, Set<String> parameters) {
    public Type {
      parameters = Set.copyOf(parameters);
    }
  }

  private static final Type UNKNOWN = new Type(false, false, Set.of());

  public Capabilities {
    types = Collections.unmodifiableMap(new HashMap<>(types));
  }

  static Capabilities of(CapabilityStatement statement) throws Trouble {
    String version = statement.hasFhirVersion() ? statement.getFhirVersion().toCode() : "";
    Release release =
        Release.of(version)
            .orElseThrow(
                () ->
                    new Trouble(
                        Difficulty.UNSUITABLE,
                        "The server speaks FHIR "
                            + (version.isEmpty() ? "(none said)" : version)
                            + ", not R4, R4B or R5"));
    List<String> formats = statement.getFormat().stream().map(CodeType::getValueAsString).toList();
    boolean json = formats.isEmpty() || formats.stream().anyMatch(f -> f.contains("json"));
    Set<String> interactions = new TreeSet<>();
    Map<String, Type> types = new HashMap<>();
    for (CapabilityStatementRestComponent rest : statement.getRest()) {
      if (rest.getMode() != RestfulCapabilityMode.CLIENT) {
        rest.getInteraction()
            .forEach(one -> interactions.add(one.hasCode() ? one.getCode().toCode() : ""));
        rest.getResource()
            .forEach(one -> types.put(release.typeNameInR4(one.getType()), type(one)));
      }
    }
    return new Capabilities(
        release, json, interactions.contains("transaction"), interactions.contains("batch"), types);
  }

  private static Type type(CapabilityStatementRestResourceComponent resource) {
    return new Type(
        resource.getConditionalCreate(),
        resource.getConditionalUpdate(),
        resource.getSearchParam().stream()
            .filter(parameter -> parameter.hasName())
            .map(parameter -> parameter.getName())
            .collect(Collectors.toSet()));
  }

  /** What it says of a resource type of R4, or that nothing is known of it. */
  public Type of(String type) {
    return types.getOrDefault(type, UNKNOWN);
  }

  /** Whether the server names the type among those it keeps, or names none at all. */
  public boolean keeps(String type) {
    return types.isEmpty() || types.containsKey(type);
  }

  /** Whether a whole Bundle with conditional entries of these types is worth a try. */
  public boolean takesConditions(Set<String> kinds) {
    return kinds.stream().allMatch(t -> of(t).conditionalCreate() && of(t).conditionalUpdate());
  }
}
