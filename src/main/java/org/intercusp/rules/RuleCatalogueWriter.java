package org.intercusp.rules;

import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** The catalogue of rules as JSON, with the limits of the clinic beside the usual ones. */
public final class RuleCatalogueWriter {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final JsonMapper json = JsonMapper.builder().build();
  private final Limits limits;

  public RuleCatalogueWriter(Limits limits) {
    this.limits = limits;
  }

  /** All rules in the order of the catalogue. */
  public ObjectNode write() {
    ObjectNode root = NODES.objectNode();
    ArrayNode rules = root.putArray("rules");
    RuleCatalogue.rules().forEach(rule -> rules.add(rule(rule)));
    return root;
  }

  private ObjectNode rule(RuleDescription rule) {
    ObjectNode node = NODES.objectNode();
    node.put("code", rule.code());
    ArrayNode severities = node.putArray("severities");
    rule.severities().forEach(severity -> severities.add(severity.code()));
    node.put("acceptable", rule.acceptable());
    node.put("compares", rule.compares());
    node.put("limit", rule.limit());
    ArrayNode settable = node.putArray("limits");
    rule.settable().forEach(limit -> settable.add(limit(limit)));
    node.put("pointer", rule.pointer());
    node.put("fhirPath", rule.fhirPath());
    node.put("remedy", rule.remedy());
    node.put("source", rule.source().shown());
    node.put("sourceClass", rule.source().kind().shown());
    node.set("failing", sample(rule.failing()));
    node.set("passing", sample(rule.passing()));
    return node;
  }

  private ObjectNode limit(Limit limit) {
    ObjectNode node = NODES.objectNode();
    node.put("name", limit.code());
    node.put("value", limits.of(limit));
    node.put("usual", limit.usual());
    node.put("lowest", limit.lowest());
    node.put("highest", limit.highest());
    node.put("unit", limit.unit().ucum());
    return node;
  }

  private ObjectNode sample(Sample sample) {
    ObjectNode node = NODES.objectNode();
    node.set("changes", json.readTree(sample.changes()));
    if (!sample.pointer().isEmpty()) {
      node.put("pointer", sample.pointer());
    }
    if (sample.to() != null) {
      node.put("deliveredTo", sample.to().code());
    }
    return node;
  }
}
